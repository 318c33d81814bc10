import { mkdir, rm } from 'node:fs/promises';
import { availableParallelism } from 'node:os';
import { join, resolve, sep } from 'node:path';
import { CasetallyError, reason } from '../../../findings/errors.js';
import { BulkTally } from '../../../pipeline/bulk/tally.js';
import { Turns } from '../../../pipeline/bulk/turns.js';
import type { OpenedSite } from '../../../pipeline/open-case.js';
import type { ExitCode } from '../../exit.js';
import { exitCodes } from '../../exit.js';
import { counted, type Output } from '../../output.js';
import { bulkFolder } from '../../process.js';
import { onToldToStop } from '../../running.js';
import { filled } from '../../terminal/fill.js';
import { openAside } from './aside.js';
import type { BulkFlags } from './flags.js';
import type { Goal } from './job.js';
import { type Journal, openJournal } from './journal.js';
import { bulkProgress } from './progress.js';
import { runBulk } from './run.js';
import { openSource, type Source } from './source.js';
import { type Ended, exitOfBulk, printSummary } from './summary.js';
import { type BulkStores, openTarget } from './target.js';
import { startThreads } from './threads.js';

/** What one case may take. */
const SECONDS = 60;
const MEGABYTES = 512;

/** Works many records through the steps of `send`, `prepare` or `register take`. */
export async function bulk(place: string, flags: BulkFlags, output: Output): Promise<ExitCode> {
  const goal = goalOf(flags);
  output.progress?.(`Looking through ${place}`);
  const source = await openSource(place);
  return openTarget(goal, flags, output, (site, stores) =>
    workThrough({ place, source, goal, site, stores }, flags, output),
  );
}

function goalOf({ to, out, register, sign, system }: BulkFlags): Goal {
  const named = [
    ...(to === undefined ? [] : ['--to']),
    ...(out === undefined ? [] : ['--out']),
    ...(register ? ['--register'] : []),
  ];
  if (named.length > 1)
    throw new CasetallyError('usage', `${named.join(' and ')} do not go together: give one of them.`);
  if (register && sign !== undefined)
    throw new CasetallyError('usage', '--sign is for what is sent or written; leave it out with --register.');
  if (register) return { do: 'register', system };
  if (system !== undefined) throw new CasetallyError('usage', '--system goes with --register.');
  return out === undefined ? { do: 'store', to, sign } : { do: 'write', sign };
}

interface Work {
  readonly place: string;
  readonly source: Source;
  readonly goal: Goal;
  readonly site: OpenedSite;
  readonly stores: BulkStores;
}

interface Place {
  /** The folder for outputs. */
  readonly out: string | undefined;
  /** The one for journal and what is set aside. */
  readonly folder: string;
  readonly journal: Journal;
  readonly purpose: string;
}

async function workThrough(work: Work, flags: BulkFlags, output: Output): Promise<ExitCode> {
  const { goal, site, source } = work;
  const out = goal.do === 'write' ? outside(flags.out ?? '', source) : undefined;
  const to = goal.do === 'store' ? (goal.to ?? '') : '';
  const purpose = [goal.do, to, site.site.namespace];
  const folder = flags.journal ?? out ?? bulkFolder(flags.data, [...purpose, source.path]);
  // A folder of outputs is as prepare makes it.
  const journal = await openJournal(folder, folder === out ? 0o777 : undefined);
  try {
    return await ended({ ...work, out, folder, journal, purpose: purpose.join('\n') }, flags, output);
  } finally {
    await journal.close();
  }
}

async function ended(
  { place, source, goal, site, stores, out, folder, journal, purpose }: Work & Place,
  flags: BulkFlags,
  output: Output,
): Promise<ExitCode> {
  const staging = out && (await emptied(join(out, '.unfinished')));
  const aside = openAside(folder, output.language);
  const limits = { seconds: flags.seconds ?? SECONDS, megabytes: MEGABYTES };
  const threads = flags.threads ?? availableParallelism();
  const [tally, turns, stop] = [new BulkTally(), new Turns(), new AbortController()];
  const release = onToldToStop(() => stop.abort());
  const progress = await bulkProgress(output, flags);
  const begun = Date.now();
  let broken: string | undefined;
  const pool = await startThreads(
    { site, goal, data: flags.data, ...stores },
    { turns, journal },
    { ...limits, threads },
  );
  output.done?.();
  try {
    await runBulk({
      ...{ source, journal, purpose, tally, aside, turns, limits, out, stop: stop.signal },
      ...(staging !== undefined && { staging }),
      work: job => pool.run(job),
      atOnce: threads + 2,
      onProgress: at => {
        const cases = tally.done + tally.setAside;
        progress.say({ at, total: source.total, cases, setAside: tally.setAside });
      },
    });
    aside.close();
  } catch (error) {
    if (!(error instanceof CasetallyError)) throw error;
    broken = error.message;
  } finally {
    release();
    progress.close();
    await pool.close();
    if (staging !== undefined) await rm(staging, { recursive: true, force: true }).catch(() => undefined);
  }
  const end: Ended = {
    ...{ tally, place, broken, verb: verbOf(goal, flags), journal: journal.path, setAsideFile: aside.path },
    stopped: broken === undefined && stop.signal.aborted,
    seconds: Math.round((Date.now() - begun) / 100) / 10,
  };
  if (broken === undefined && !end.stopped && isNothing(tally)) {
    const other =
      tally.passedOver > 0 ? ` (${counted(tally.passedOver, 'file', 'files')} of other kinds)` : '';
    const kinds =
      'Records are files .yaml, .yml or .json that begin with casetally:, or lines of a .ndjson file.';
    output.err(filled(`casetally: ${place} holds no case record${other}. ${kinds}`, output.columns));
    return exitCodes.usage;
  }
  printSummary(end, flags, output);
  const next = 'What is done by now is not done again: mend this, and give the same command again.';
  if (broken !== undefined) output.err(filled(`casetally: ${broken} ${next}`, output.columns));
  return exitOfBulk(end);
}

const isNothing = ({ done, before, repeated, setAside }: BulkTally) =>
  done + before + repeated + setAside === 0;

function verbOf(goal: Goal, { out }: BulkFlags): string {
  if (goal.do === 'register') return 'taken into the register';
  if (goal.do === 'write') return `written to ${out}`;
  return 'stored in the outbox, for a worker to send';
}

/** The folder for outputs. @throws CasetallyError 'usage' where it would be read as input itself */
function outside(out: string, { path }: Source): string {
  const target = resolve(out);
  if (`${target}${sep}`.startsWith(`${path}${sep}`))
    throw new CasetallyError('usage', `--out ${out} lies in the folder that is read: name one outside it.`);
  return target;
}

async function emptied(folder: string): Promise<string> {
  try {
    await rm(folder, { recursive: true, force: true });
    await mkdir(folder, { recursive: true, mode: 0o700 });
    return folder;
  } catch (error) {
    throw new CasetallyError('file-unwritable', `${folder} cannot be written: ${reason(error)}.`, {
      cause: error,
    });
  }
}
