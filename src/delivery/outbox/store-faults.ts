import { CasetallyError, type ErrorCode } from '../../findings/errors.js';

/** What can befall a store that is no fault of Casetally. */
export type StoreFault = Extract<
  ErrorCode,
  'outbox-away' | 'outbox-damaged' | 'outbox-full' | 'outbox-read-only'
>;

/** True for an error about the store of the outbox: nothing is wrong with the case or the request. */
export function isOutboxFault(error: unknown): error is CasetallyError {
  return error instanceof CasetallyError && error.code.startsWith('outbox-');
}

const STANDS =
  'Nothing of this step is stored; what was stored before stands, and a case that was being sent is asked for at its destination before it goes again.';

const SAID: Readonly<Record<StoreFault, (place: string) => string>> = {
  'outbox-full': place =>
    `There is no room left for the outbox in ${place}. ${STANDS} Make room on its disk, then do it again.`,
  'outbox-read-only': place =>
    `The outbox in ${place} cannot be written to: its disk, folder or file is read-only. ${STANDS} Let it be written to by this user, then do it again.`,
  'outbox-damaged': place =>
    `The outbox in ${place} is damaged: a part of it cannot be read, and what is in that part may be lost. Nothing was repaired or removed. 'casetally outbox doctor' says what is hurt, 'casetally outbox rescue' copies what can be read to a new folder, 'casetally restore' takes a backup.`,
  'outbox-away': place =>
    `The outbox in ${place} cannot be reached or does not answer. Whether the last step was stored is not known: it may be done again, for nothing is stored or sent twice. Start it, or see why it is busy, then do it again.`,
};

/** The error for a store, with what is stored and what to do. @param detail a word of the database, never a row. */
export function storeFault(
  code: StoreFault,
  place: string,
  cause?: unknown,
  detail?: string,
): CasetallyError {
  return new CasetallyError(code, `${SAID[code](place)}${detail ? ` (${detail})` : ''}`, { cause });
}

/** What SQLite's result codes mean here (SQLite documentation, "Result and Error Codes"). */
const OF_SQLITE: readonly (readonly [RegExp, StoreFault])[] = [
  [/^SQLITE_(FULL|IOERR_SHMSIZE)/, 'outbox-full'],
  [/^SQLITE_(READONLY|PERM|AUTH|CANTOPEN)/, 'outbox-read-only'],
  [/^SQLITE_(CORRUPT|IOERR)/, 'outbox-damaged'],
  [/^SQLITE_(BUSY|LOCKED|PROTOCOL)/, 'outbox-away'],
];

/** The code of what SQLite threw; no such word for anything else. */
export function sqliteCode(error: unknown): string {
  return String(error instanceof Error && Reflect.get(error, 'code'));
}

/** What SQLite threw, in words; anything else as it came. */
export function sqliteFault(error: unknown, place: string): unknown {
  const code = sqliteCode(error);
  const found = OF_SQLITE.find(([pattern]) => pattern.test(code));
  return found ? storeFault(found[1], place, error, code) : error;
}
