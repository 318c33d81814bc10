import { createReadStream } from 'node:fs';
import { type FileHandle, mkdir, open, readFile, rm } from 'node:fs/promises';
import { join } from 'node:path';
import { createInterface } from 'node:readline';
import { CasetallyError, reason } from '../../../findings/errors.js';
import { DigestSet } from '../../../pipeline/bulk/digests.js';

/** What a run and those before it have done: one digest a line, after a `+` for what was only begun; no names. */
export interface Journal {
  readonly path: string;
  /** What an earlier run began to store and did not write down as done: whether it is stored is not known. */
  readonly begun: ReadonlySet<string>;
  /** Is about to be stored; fulfilled when that is on the disk. */
  begin(digest: string): Promise<void>;
  /** Done by an earlier run, or by this one. */
  has(digest: string): 'before' | 'now' | undefined;
  /** Fulfilled when it is on the disk. */
  add(digest: string): Promise<void>;
  close(): Promise<void>;
}

const LINE = /^(\+?)([0-9a-f]{64})$/;

/**
 * Opens the journal of a folder, for one process at a time.
 *
 * @param mode of the folder, where it is not there yet
 * @throws CasetallyError 'usage' while another process has it, 'file-unwritable' where it cannot be written
 */
export async function openJournal(folder: string, mode = 0o700): Promise<Journal> {
  const path = join(folder, 'bulk-journal.txt');
  const unwritable = (error: unknown) =>
    new CasetallyError('file-unwritable', `${path} cannot be written: ${reason(error)}.`, { cause: error });
  let file: FileHandle | undefined;
  let lock: string | undefined;
  try {
    await mkdir(folder, { recursive: true, mode });
    lock = await locked(`${path}.lock`);
    file = await open(path, 'a+', 0o600);
    const read = await readDigests(path);
    const { size } = await file.stat();
    // What a kill left half written is ended, so that the next line begins anew.
    if (size > 0) await file.write('\n');
    return journalIn(file, read, { path, lock, unwritable });
  } catch (error) {
    await file?.close();
    if (lock !== undefined) await rm(lock, { force: true });
    throw error instanceof CasetallyError ? error : unwritable(error);
  }
}

interface JournalParts {
  readonly path: string;
  readonly lock: string;
  readonly unwritable: (error: unknown) => CasetallyError;
}

interface Read {
  readonly before: DigestSet;
  readonly begun: ReadonlySet<string>;
}

function journalIn(
  file: FileHandle,
  { before, begun }: Read,
  { path, lock, unwritable }: JournalParts,
): Journal {
  const now = new DigestSet();
  let waiting: { readonly line: string; readonly done: (error?: CasetallyError) => void }[] = [];
  let writing: Promise<void> | undefined;
  // What comes while a sync is under way goes with the next: one sync for as many as there are.
  const writeOn = async () => {
    while (waiting.length > 0) {
      const these = waiting;
      waiting = [];
      try {
        await file.write(these.map(({ line }) => `${line}\n`).join(''));
        await file.datasync();
        for (const { done } of these) done();
      } catch (error) {
        for (const { done } of these) done(unwritable(error));
      }
    }
    writing = undefined;
  };
  const write = (line: string) =>
    new Promise<void>((resolve, reject) => {
      waiting.push({ line, done: error => (error ? reject(error) : resolve()) });
      writing ??= writeOn();
    });
  return {
    ...{ path, begun },
    has: digest => (now.has(digest) ? 'now' : before.has(digest) ? 'before' : undefined),
    begin: digest => (begun.has(digest) ? Promise.resolve() : write(`+${digest}`)),
    add: async digest => {
      await write(digest);
      now.add(digest);
    },
    close: async () => {
      await writing;
      await file.close();
      await rm(lock, { force: true });
    },
  };
}

async function readDigests(path: string): Promise<Read> {
  const [before, begun] = [new DigestSet(), new Set<string>()];
  const lines = createInterface({ input: createReadStream(path), crlfDelay: Number.POSITIVE_INFINITY });
  for await (const line of lines) {
    const [, mark, digest] = LINE.exec(line) ?? [];
    if (digest === undefined) continue;
    if (mark === '+') begun.add(digest);
    else {
      before.add(digest);
      begun.delete(digest);
    }
  }
  return { before, begun };
}

/** Makes a file with the number of this process; one that was left by a process that is no more is taken over. */
async function locked(path: string): Promise<string> {
  for (let attempt = 0; ; attempt += 1) {
    try {
      const file = await open(path, 'wx', 0o600);
      await file.write(`${process.pid}\n`);
      await file.close();
      return path;
    } catch (error) {
      if (!(error instanceof Error && 'code' in error && error.code === 'EEXIST')) throw error;
    }
    const holder = Number((await readFile(path, 'utf8').catch(() => '')).trim());
    if (attempt > 0 || isRunning(holder))
      throw new CasetallyError(
        'usage',
        `another run (process ${holder || 'unknown'}) is at work on the same cases: wait until it has ended. If there is none, remove ${path}.`,
      );
    await rm(path, { force: true });
  }
}

function isRunning(pid: number): boolean {
  if (!Number.isInteger(pid) || pid <= 0 || pid === process.pid) return false;
  try {
    process.kill(pid, 0);
    return true;
  } catch (error) {
    return error instanceof Error && 'code' in error && error.code === 'EPERM';
  }
}
