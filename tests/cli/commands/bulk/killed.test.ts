import { type ChildProcess, spawn } from 'node:child_process';
import { once } from 'node:events';
import { mkdirSync, mkdtempSync, readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import Sqlite from 'better-sqlite3';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { program } from '../../../support/built.js';
import { firstText, secondText } from '../../../support/corrected.js';
import { madeCase, outboxCases, outboxRecords, siteText } from './made.js';

/* The built program, killed in the middle. */

const root = mkdtempSync(join(tmpdir(), 'casetally-bulk-killed-'));
const cases = join(root, 'cases');
const site = join(root, 'site.yaml');
const ids = Array.from({ length: 10 }, (_, n) => `K-${n + 10}`);
beforeAll(() => {
  writeFileSync(site, siteText);
  mkdirSync(cases);
  for (const id of ids) writeFileSync(join(cases, `${id}.yaml`), madeCase(id));
  // A correction that is read before what it corrects, and one that has an error.
  writeFileSync(join(cases, 'A-2.yaml'), secondText);
  writeFileSync(join(cases, 'Z-1.yaml'), firstText);
  writeFileSync(join(cases, 'wrong.yaml'), madeCase('W-1').replace('10 Fr x 25 cm', 'ten'));
});
afterAll(() => rmSync(root, { recursive: true }));

function start(...args: string[]): { readonly child: ChildProcess; readonly said: () => string } {
  const child = spawn(process.execPath, [program, 'bulk', cases, '--site', site, '--threads', '2', ...args]);
  const chunks: string[] = [];
  for (const stream of [child.stdout, child.stderr])
    stream.setEncoding('utf8').on('data', chunk => void chunks.push(chunk));
  return { child, said: () => chunks.join('') };
}
const ended = async ({ child }: { child: ChildProcess }): Promise<number | string> => {
  const [code, signal] =
    child.exitCode === null && child.signalCode === null
      ? ((await once(child, 'close')) as [number | null, string | null])
      : [child.exitCode, child.signalCode];
  return code ?? signal ?? '';
};

/** Fulfilled when so many have come, or the process has ended. */
async function until(count: () => number, wanted: number, { child }: { child: ChildProcess }): Promise<void> {
  while (count() < wanted && child.exitCode === null) await new Promise(resolve => setTimeout(resolve, 5));
}

function countItems(data: string): number {
  try {
    const db = new Sqlite(join(data, 'outbox.db'), { readonly: true });
    try {
      return (db.prepare('SELECT count(*) AS n FROM queue_item').get() as { n: number }).n;
    } finally {
      db.close();
    }
  } catch {
    // Not there yet.
    return 0;
  }
}

const foldersIn = (out: string): string[] => {
  try {
    return readdirSync(out, { withFileTypes: true })
      .filter(entry => entry.isDirectory() && !entry.name.startsWith('.'))
      .map(({ name }) => name)
      .sort();
  } catch {
    return [];
  }
};

describe('casetally bulk that is killed twice', () => {
  it('has stored each case once when it ends', async () => {
    const data = join(root, 'data');
    const args = ['--to', 'records', '--data', data];
    for (const wanted of [3, 7]) {
      const run = start(...args);
      await until(() => countItems(data), wanted, run);
      run.child.kill('SIGKILL');
      expect(await ended(run)).toBe('SIGKILL');
    }
    const before = countItems(data);
    expect(before).toBeGreaterThanOrEqual(7);
    expect(before).toBeLessThan(12);
    const last = start(...args, '--json');
    expect(await ended(last)).toBe(1);
    const told = JSON.parse(last.said());
    expect(told.done + told.before).toBe(12);
    expect(told.setAside).toBe(1);
    const all = await outboxCases(data);
    expect(all.filter(id => id.startsWith('K-')).sort()).toEqual(ids);
    expect(all.length).toBe(12);
    const records = await outboxRecords(data);
    const [first, second] = [records.indexOf(firstText), records.indexOf(secondText)];
    expect(first).toBeGreaterThanOrEqual(0);
    expect(second).toBeGreaterThan(first);
    const again = start(...args);
    expect(await ended(again)).toBe(1);
    expect(again.said()).toMatch(/^0 cases stored .*12 done by an earlier run/s);
    expect(countItems(data)).toBe(12);
  });

  it('has written each case whole when it ends, and nothing else', async () => {
    const out = join(root, 'out');
    for (const wanted of [2, 6]) {
      const run = start('--out', out);
      await until(() => foldersIn(out).length, wanted, run);
      run.child.kill('SIGKILL');
      expect(await ended(run)).toBe('SIGKILL');
    }
    expect(foldersIn(out).length).toBeLessThan(12);
    const last = start('--out', out);
    expect(await ended(last)).toBe(1);
    expect(foldersIn(out).length).toBe(12);
    expect(readdirSync(out).filter(name => name.startsWith('.'))).toEqual([]);
    for (const folder of foldersIn(out)) {
      const names = readdirSync(join(out, folder));
      expect(names, folder).toEqual(expect.arrayContaining(['submission.json', 'report.pdf', 'tally.json']));
      expect(names.filter(name => name.startsWith('.'))).toEqual([]);
      JSON.parse(readFileSync(join(out, folder, 'submission.json'), 'utf8'));
    }
  });

  it('finishes what it has begun when it is told to stop, and says how to go on', async () => {
    const data = join(root, 'data-stopped');
    const args = ['--to', 'records', '--data', data];
    const run = start(...args);
    await until(() => countItems(data), 3, run);
    run.child.kill('SIGINT');
    expect(await ended(run)).toBe(1);
    const stored = countItems(data);
    expect(stored).toBeLessThan(12);
    const said = run.said().replaceAll(/\s+/g, ' ');
    expect(said).toContain(`${stored} cases stored in the outbox`);
    expect(said).toContain('The same command goes on where this one ended.');
    const last = start(...args, '--json');
    expect(await ended(last)).toBe(1);
    expect(JSON.parse(last.said())).toMatchObject({ before: stored, done: 12 - stored, setAside: 1 });
  });
});
