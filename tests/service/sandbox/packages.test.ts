import { describe, expect, it } from 'vitest';
import { CasetallyError } from '../../../src/findings/errors.js';
import { optional } from '../../../src/service/sandbox/packages.js';

describe('optional packages', () => {
  it('names the missing package and how to install it', async () => {
    const missing = 'a-package-that-is-not-there';
    const error = await optional('express', () => import(missing)).catch((e: unknown) => e);
    expect(error).toBeInstanceOf(CasetallyError);
    expect(error).toMatchObject({
      code: 'optional-package-missing',
      message: expect.stringMatching(/'express'.*npm install express@5/),
    });
  });
});
