import { createHash } from 'node:crypto';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { BulkAnswer, BulkJob } from '../../../../src/cli/commands/bulk/job.js';
import { runBulk } from '../../../../src/cli/commands/bulk/run.js';
import { setAside } from '../../../../src/cli/commands/bulk/set-aside.js';
import type { Found } from '../../../../src/cli/commands/bulk/source.js';
import { MemoryOutbox } from '../../../../src/delivery/outbox/memory-outbox.js';
import { CasetallyError } from '../../../../src/findings/errors.js';
import { finding } from '../../../../src/findings/finding.js';
import { BulkTally } from '../../../../src/pipeline/bulk/tally.js';
import { Turns } from '../../../../src/pipeline/bulk/turns.js';
import type { Outcome } from '../../../../src/service/threads/pool.js';

/* Runs that are cut off at any step, as by a kill: the outbox is real, threads and journal are not. */

interface Made {
  readonly case: string;
  readonly version: number;
  readonly good: boolean;
}
const textOf = (made: Made) => JSON.stringify(made);
const sha256 = (text: string) => createHash('sha256').update(text).digest('hex');

/** What outlives a kill. */
interface Disk {
  readonly outbox: MemoryOutbox;
  readonly journal: Set<string>;
  readonly begun: Set<string>;
}
const newDisk = (): Disk => {
  let ids = 0;
  return {
    outbox: new MemoryOutbox(() => {
      ids += 1;
      return `item-${ids}`;
    }),
    journal: new Set(),
    begun: new Set(),
  };
};

interface Life {
  readonly records: readonly Made[];
  readonly disk: Disk;
  /** Steps until it is killed; it is not when absent. */
  readonly steps?: number;
  /** How many ticks each step of work takes, again and again. */
  readonly ticks: readonly number[];
  readonly atOnce: number;
  readonly outboxFullAfter?: number;
}

/** One run, to its end or until it is killed. */
async function live({ records, disk, steps, ticks, atOnce, outboxFullAfter }: Life) {
  const [tally, turns] = [new BulkTally(), new Turns()];
  const setAsides: string[] = [];
  let [left, count] = [steps ?? Number.POSITIVE_INFINITY, 0];
  let kill: () => void = () => undefined;
  const killed = new Promise<'killed'>(resolve => {
    kill = () => resolve('killed');
  });
  /** One step that takes a while; after the kill no step comes back, and it has no effect. */
  const step = async () => {
    count += 1;
    for (let n = ticks[count % ticks.length] ?? 0; n >= 0; n -= 1) await Promise.resolve();
    left -= 1;
    if (left < 0) {
      kill();
      await new Promise(() => undefined);
    }
  };
  const begin = async (key: string) => {
    disk.begun.add(key);
    await step();
  };
  const work = async (job: BulkJob): Promise<Outcome<BulkAnswer>> => {
    const answered = (answer: BulkAnswer) => ({ kind: 'answered', answer }) as const;
    const text = Buffer.from(job.bytes).toString('utf8');
    const { case: caseKey, version, good } = JSON.parse(text) as Made;
    await step();
    if (!good) return answered(setAside([finding('bulk.died', '', {})]));
    await turns.declare(job.number, caseKey);
    await step();
    const earlier = (await disk.outbox.list({ caseKey })).map(({ payload }) => JSON.parse(payload) as Made);
    if (version > 1 && !earlier.some(one => one.version === version - 1))
      return answered(setAside([finding('bulk.died', '', {})], { early: true }));
    await step();
    if (count > (outboxFullAfter ?? Number.POSITIVE_INFINITY))
      return answered({ kind: 'broken', code: 'outbox-full', message: 'the disk is full.' });
    const item = {
      destination: 'records',
      caseKey,
      patientKey: caseKey,
      payload: text,
      digest: sha256(text),
    };
    await begin(job.key);
    await disk.outbox.put(item, 0);
    await step();
    return answered({ kind: 'done', counted: [] });
  };
  const now = new Set<string>();
  const run = runBulk({
    ...{ tally, turns, work, atOnce, out: undefined, purpose: 'test' },
    limits: { seconds: 1, megabytes: 1 },
    stop: new AbortController().signal,
    onProgress: () => undefined,
    aside: { add: name => void setAsides.push(name) },
    journal: {
      begun: new Set(disk.begun),
      has: digest => (now.has(digest) ? 'now' : disk.journal.has(digest) ? 'before' : undefined),
      add: async digest => {
        await step();
        disk.journal.add(digest);
        disk.begun.delete(digest);
        now.add(digest);
        await step();
      },
    },
    source: {
      path: '/cases',
      total: records.length,
      async *entries(): AsyncGenerator<Found> {
        for (const [at, record] of records.entries())
          yield {
            ...{ kind: 'record', at, name: `${at}`, file: `/cases/${at}`, notes: [] },
            bytes: Buffer.from(textOf(record)),
            folder: () => `${at}`,
          };
      },
    },
  });
  const how = await Promise.race([run.then(() => 'ended' as const), killed]);
  return { how, tally, setAsides };
}

const stored = async ({ outbox }: Disk) => (await outbox.list()).map(({ payload }) => payload);

/** Cases of up to three versions each, a few of them bad, some twice, in any order. */
const records = fc
  .array(
    fc.record({
      case: fc.constantFrom('a', 'b', 'c', 'd', 'e'),
      version: fc.integer({ min: 1, max: 3 }),
      good: fc.boolean(),
    }),
    { minLength: 1, maxLength: 14 },
  )
  .map(made => made.map(one => ({ ...one, good: one.good || one.case !== 'e' })));

/** What of it can be stored: the good ones whose earlier versions are there. */
function wanted(made: readonly Made[]): string[] {
  const good = made.filter(one => one.good);
  const has = (name: string, version: number): boolean =>
    version === 0 ||
    (good.some(one => one.case === name && one.version === version) && has(name, version - 1));
  return [...new Set(good.filter(one => has(one.case, one.version)).map(textOf))].sort();
}

describe('after any number of kills', () => {
  it('the outbox has each good record once, and versions in their order', async () => {
    await fc.assert(
      fc.asyncProperty(
        records,
        fc.array(fc.nat(40), { maxLength: 5 }),
        fc.array(fc.nat(6), { minLength: 1, maxLength: 5 }),
        fc.integer({ min: 1, max: 5 }),
        async (made, kills, ticks, atOnce) => {
          const disk = newDisk();
          for (const steps of kills) await live({ records: made, disk, steps, ticks, atOnce });
          const last = await live({ records: made, disk, ticks, atOnce });
          expect(last.how).toBe('ended');
          const items = await stored(disk);
          expect([...items].sort()).toEqual(wanted(made));
          const versions = new Map<string, number>();
          for (const one of items.map(text => JSON.parse(text) as Made)) {
            expect(one.version).toBe((versions.get(one.case) ?? 0) + 1);
            versions.set(one.case, one.version);
          }
          // Everything is accounted for: done, done before, the same as another, or set aside.
          const { done, before, repeated, setAside: aside } = last.tally;
          expect(done + before + repeated + aside).toBe(made.length);
          expect(last.setAsides.length).toBe(aside);
        },
      ),
      { numRuns: 300 },
    );
  });

  it('a run over what is done stores nothing', async () => {
    const disk = newDisk();
    const made = Array.from({ length: 9 }, (_, n) => ({ case: `${n}`, version: 1, good: true }));
    await live({ records: made, disk, ticks: [1, 4, 2], atOnce: 3 });
    const again = await live({ records: made, disk, ticks: [0], atOnce: 3 });
    expect(again.tally).toMatchObject({ done: 0, before: 9 });
    expect((await stored(disk)).length).toBe(9);
  });

  it('a record that was changed meanwhile is done again', async () => {
    const disk = newDisk();
    const made: Made = { case: 'a', version: 1, good: true };
    await live({ records: [made], disk, ticks: [0], atOnce: 2 });
    const changed = { ...made, note: 'changed' };
    const again = await live({ records: [changed], disk, ticks: [0], atOnce: 2 });
    expect(again.tally).toMatchObject({ done: 1, before: 0 });
    expect((await stored(disk)).length).toBe(2);
  });

  it('an outbox whose disk is full ends the run, and the next one goes on', async () => {
    const disk = newDisk();
    const made = Array.from({ length: 20 }, (_, n) => ({ case: `${n}`, version: 1, good: true }));
    const run = live({ records: made, disk, ticks: [1], atOnce: 3, outboxFullAfter: 30 });
    await expect(run).rejects.toThrow(CasetallyError);
    const before = (await stored(disk)).length;
    expect(before).toBeGreaterThan(0);
    expect(before).toBeLessThan(20);
    expect(disk.journal.size).toBe(before);
    const { tally } = await live({ records: made, disk, ticks: [1], atOnce: 3 });
    expect(tally).toMatchObject({ before, done: 20 - before });
  });
});

describe('a job that comes to no answer', () => {
  it.each([
    [{ kind: 'too-long', lasting: false }, 'bulk.too-long'],
    [{ kind: 'too-large', lasting: false }, 'bulk.too-much-memory'],
    [{ kind: 'died', lasting: true }, 'bulk.died'],
    [{ kind: 'left' }, undefined],
  ] as const)('%o', async (outcome, code) => {
    const found: (string | undefined)[] = [];
    const tally = new BulkTally();
    await runBulk({
      ...{ tally, turns: new Turns(), atOnce: 2, out: undefined, purpose: 'test' },
      work: async () => outcome,
      limits: { seconds: 1, megabytes: 1 },
      stop: new AbortController().signal,
      onProgress: () => undefined,
      aside: { add: (_, findings) => void found.push(findings[0]?.code) },
      journal: {
        begun: new Set(),
        has: () => undefined,
        add: () => Promise.reject(new Error('nothing is done')),
      },
      source: {
        path: '/cases',
        total: 1,
        async *entries(): AsyncGenerator<Found> {
          yield {
            ...{ kind: 'record', at: 1, name: 'a', file: '/cases/a', notes: [] },
            bytes: Buffer.from('a'),
            folder: () => 'a',
          };
        },
      },
    });
    expect(found).toEqual(code === undefined ? [] : [code]);
    expect(tally.setAside).toBe(found.length);
  });
});
