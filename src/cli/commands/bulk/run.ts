import { createHash } from 'node:crypto';
import { stat } from 'node:fs/promises';
import { join } from 'node:path';
import { CasetallyError, type ErrorCode } from '../../../findings/errors.js';
import { type Finding, finding } from '../../../findings/finding.js';
import type { BulkTally } from '../../../pipeline/bulk/tally.js';
import type { Turns } from '../../../pipeline/bulk/turns.js';
import type { Outcome } from '../../../service/threads/pool.js';
import type { AsideFile } from './aside.js';
import type { BulkAnswer, BulkJob } from './job.js';
import type { Journal } from './journal.js';
import { setAside } from './set-aside.js';
import type { Found, Source } from './source.js';

/** What a run needs. */
export interface BulkRun {
  readonly source: Source;
  readonly journal: Pick<Journal, 'has' | 'add' | 'begun'>;
  /** What is done with the records, and for whom: what is done for one purpose is not done for another. */
  readonly purpose: string;
  readonly tally: BulkTally;
  readonly aside: Pick<AsideFile, 'add'>;
  readonly turns: Turns;
  readonly work: (job: BulkJob) => Promise<Outcome<BulkAnswer>>;
  /** Records that may be held at once, those in the threads among them. */
  readonly atOnce: number;
  /** The folder that folders of cases go to; absent where nothing is written. */
  readonly out: string | undefined;
  /** Where files are written before they are moved there. */
  readonly staging?: string;
  readonly limits: { readonly seconds: number; readonly megabytes: number };
  /** No more is begun; what is begun is finished. */
  readonly stop: AbortSignal;
  readonly onProgress: (at: number) => void;
}

/** Corrections that wait for an earlier version which may come later in the input. */
const MOST_EARLY = 1000;

const sha256 = (text: string | Uint8Array) => createHash('sha256').update(text).digest('hex');

type Aside = Extract<BulkAnswer, { kind: 'set-aside' }>;

/** first: what an earlier run may have stored. all. late: corrections that came before what they correct. */
type Pass = 'first' | 'all' | 'late';

/**
 * Works the records of a source, as many at once as there are threads, and reads only a few ahead. What an earlier run
 * may have stored without writing it down goes before all others: as long as it is the newest of its case it is not
 * stored again. A correction that came before what it corrects is tried again once the rest is done.
 *
 * @throws CasetallyError where the environment is broken (disk, outbox, settings); what was done by then is written down.
 */
export async function runBulk(run: BulkRun): Promise<void> {
  const { source, journal, tally, aside, turns, stop } = run;
  const early = new Map<string, { readonly name: string; readonly answer: Aside }>();
  /** Of the first pass, to be left out once in the next. */
  const first = new Set<string>();
  const working = new Map<string, Promise<void>>();
  let number = 0;
  let broken: unknown;
  const isOver = () => broken !== undefined || stop.aborted;

  if (journal.begun.size > 0) await pass('first');
  await pass('all');
  for (let before = -1; early.size > 0 && !isOver() && tally.done > before; ) {
    before = tally.done;
    await pass('late');
  }
  if (broken !== undefined) throw broken;
  for (const { name, answer } of early.values()) putAside(name, answer);

  async function pass(which: Pass): Promise<void> {
    if (isOver()) return;
    for await (const found of source.entries()) {
      if (isOver() || (which === 'first' && first.size >= journal.begun.size)) break;
      await take(found, which).catch(error => {
        broken ??= error;
      });
      if (which === 'all') run.onProgress(found.at);
    }
    await Promise.all(working.values());
  }

  async function take(found: Found, which: Pass): Promise<void> {
    if (found.kind === 'record') await takeRecord(found, which);
    else if (which !== 'all') return;
    else if (found.kind === 'other') tally.passedOver += 1;
    else putAside(found.name, setAside(found.findings, { unreadable: true }));
  }

  async function takeRecord(found: Extract<Found, { kind: 'record' }>, which: Pass): Promise<void> {
    const digest = sha256(found.bytes);
    const within = run.out === undefined ? undefined : found.folder(digest);
    // The same bytes under two names are two folders.
    const key = sha256(`${run.purpose}\n${within ?? ''}\n${digest}`);
    if (which === 'late' && !early.has(key)) return;
    if (which === 'first' && (!journal.begun.has(key) || first.has(key))) return;
    if (which === 'all' && first.delete(key)) return;
    await working.get(key);
    const folder =
      within === undefined ? {} : { folder: join(run.out ?? '', within), staging: run.staging ?? '' };
    const done = journal.has(key);
    if (done && (folder.folder === undefined || (await isFolder(folder.folder)))) {
      if (which === 'all') tally[done === 'before' ? 'before' : 'repeated'] += 1;
      return;
    }
    if (which === 'all' && early.has(key)) {
      tally.repeated += 1;
      return;
    }
    while (working.size >= run.atOnce) await Promise.race(working.values());
    if (isOver()) return;
    if (which === 'first') first.add(key);
    number += 1;
    const job: BulkJob = { number, key, bytes: found.bytes, file: found.file, ...folder };
    turns.begin(number);
    const work = end(job, found)
      .catch(error => {
        broken ??= error;
      })
      .finally(() => {
        turns.end(job.number);
        working.delete(key);
      });
    working.set(key, work);
  }

  async function end(job: BulkJob, { name, notes }: { name: string; notes: readonly Finding[] }) {
    const { key } = job;
    const answer = answerOf(await run.work(job), run);
    if (!answer) return;
    if (answer.kind === 'broken') throw new CasetallyError(answer.code as ErrorCode, answer.message);
    if (answer.kind === 'done') {
      // Before another of the same case goes on: what was stored and not written down is only ever the last of it.
      await journal.add(key);
      early.delete(key);
      tally.case(answer.counted, false);
    } else if (answer.early && (early.size < MOST_EARLY || early.has(key))) early.set(key, { name, answer });
    else {
      early.delete(key);
      putAside(name, answer.unreadable ? { ...answer, findings: [...answer.findings, ...notes] } : answer);
    }
  }

  function putAside(name: string, answer: Aside): void {
    aside.add(name, answer.findings);
    tally.case(answer.counted, true);
    if (answer.unreadable) tally.unreadable += 1;
  }
}

/** What a job came to; undefined where it was not begun. */
function answerOf(
  outcome: Outcome<BulkAnswer>,
  { limits: { seconds, megabytes } }: BulkRun,
): BulkAnswer | undefined {
  switch (outcome.kind) {
    case 'answered':
      return outcome.answer;
    case 'too-long':
      return setAside([finding('bulk.too-long', '', { seconds: `${seconds}` })]);
    case 'too-large':
      return setAside([finding('bulk.too-much-memory', '', { megabytes: `${megabytes}` })]);
    case 'died':
      return setAside([finding('bulk.died', '', {})]);
    default:
      return undefined;
  }
}

const isFolder = (path: string): Promise<boolean> =>
  stat(path).then(
    info => info.isDirectory(),
    () => false,
  );
