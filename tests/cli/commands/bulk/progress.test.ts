import { describe, expect, it } from 'vitest';
import { bulkProgress } from '../../../../src/cli/commands/bulk/progress.js';

async function said(flags: { quiet?: boolean; json?: boolean }): Promise<string[]> {
  const err: string[] = [];
  let now = 0;
  const output = { out: () => undefined, err: (text: string) => void err.push(text), color: false };
  const progress = await bulkProgress(output, flags, () => now);
  for (now = 0; now <= 30_000; now += 1000)
    progress.say({ at: now / 1000, total: 60, cases: now / 1000, setAside: 1 });
  progress.close();
  return err;
}

describe('progress of many cases where nobody watches', () => {
  it('is a line now and then', async () => {
    expect(await said({})).toEqual([
      'casetally bulk: 10 cases, 1 set aside, 16 %, 1.0 a second, 50 s left\n',
      'casetally bulk: 20 cases, 1 set aside, 33 %, 1.0 a second, 40 s left\n',
      'casetally bulk: 30 cases, 1 set aside, 50 %, 1.0 a second, 30 s left\n',
    ]);
  });

  it('is not said with --quiet, nor beside JSON', async () => {
    expect(await said({ quiet: true })).toEqual([]);
    expect(await said({ json: true })).toEqual([]);
  });
});
