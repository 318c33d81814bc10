import { describe, expect, it } from 'vitest';
import { exitCodes, exitMeanings } from '../../src/cli/exit.js';
import { run } from '../../src/cli/program.js';

async function said(...args: string[]): Promise<string> {
  let text = '';
  const out = (more: string) => {
    text += more;
  };
  const code = await run(args, { out, err: out, color: false });
  expect(code).toBe(exitCodes.ok);
  return text;
}

const codesIn = (text: string) =>
  [...(text.split('Exit codes:')[1] ?? '').matchAll(/^ +(\d+) {2}\S/gm)].map(([, code]) => Number(code));

describe('exit codes', () => {
  it.each([['exit-codes'], ['help', 'exit-codes']])('%s prints all of them', async (...args) => {
    const text = await said(...args);
    for (const [code, meaning] of exitMeanings) expect(text).toContain(`${code}  ${meaning}`);
    expect(codesIn(text)).toContain(exitCodes.software);
  });

  it.each([
    [['send'], [0, 1, 2, 3, 4, 70]],
    [['check'], [0, 1, 2, 70]],
    [['label'], [0, 1, 2, 70]],
    [['compare'], [0, 2, 70]],
    [['verify'], [0, 1, 2, 70]],
    [['serve'], [0, 2, 70]],
    [['doctor'], [0, 2, 3, 4, 70]],
    [
      ['outbox', 'list'],
      [0, 2, 70],
    ],
    [
      ['outbox', 'retry'],
      [0, 2, 3, 4, 70],
    ],
    [
      ['registry', 'build'],
      [0, 1, 2, 70],
    ],
  ])('the help of %j tells its own', async (command, codes) => {
    expect(codesIn(await said(...command, '--help'))).toEqual(codes);
  });
});
