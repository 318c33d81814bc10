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
  it('exit-codes prints all of them', async () => {
    const text = await said('exit-codes');
    for (const [code, meaning] of exitMeanings)
      expect(text.replace(/\s+/g, ' ')).toContain(` ${code} ${meaning}`);
    expect(codesIn(text)).toContain(exitCodes.software);
  });

  it.each([
    [['send'], [0, 1, 2, 3, 4, 70]],
    [['check'], [0, 1, 2, 70]],
    [['events'], [0, 1, 2, 70]],
    [['label'], [0, 1, 2, 70]],
    [['compare'], [0, 2, 70]],
    [['verify'], [0, 1, 2, 70]],
    [['serve'], [0, 2, 70]],
    [['exit-codes'], [0, 2, 70]],
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

describe('the help of a command', () => {
  it('says what a code means for it, and nothing of other commands', async () => {
    expect(await said('check', '--help')).toMatch(/ 1 {2}at least one error$/m);
    for (const command of ['check', 'prepare', 'validate', 'report'])
      expect((await said(command, '--help')).split('Exit codes:')[1]).not.toMatch(/send|sent|destination/);
  });

  it.each([80, 40])('keeps to %i columns', async columns => {
    const texts: string[] = [];
    const out = (text: string) => void texts.push(text);
    for (const command of ['check', 'send', 'doctor', 'exit-codes'])
      await run([command, '--help'], { out, err: out, color: false, columns });
    await run(['exit-codes'], { out, err: out, color: false, columns });
    const lines = texts.join('').split('\n');
    expect(lines.length).toBeGreaterThan(60);
    expect(lines.filter(line => line.length > columns && !line.startsWith('Usage: '))).toEqual([]);
  });
});
