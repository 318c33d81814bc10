import { describe, expect, it } from 'vitest';
import { isOutboxFault, sqliteFault, storeFault } from '../../../src/delivery/outbox/store-faults.js';
import { CasetallyError } from '../../../src/findings/errors.js';

/** What SQLite throws; the codes are those of https://sqlite.org/rescode.html */
const thrown = (code: string) => Object.assign(new Error('CANARY: UPDATE item'), { code });

const STANDS =
  'Nothing of this step is stored; what was stored before stands, and a case that was being sent is asked for at its destination before it goes again.';
const FULL = `There is no room left for the outbox in /data. ${STANDS} Make room on its disk, then do it again.`;
const READ_ONLY = `The outbox in /data cannot be written to: its disk, folder or file is read-only. ${STANDS} Let it be written to by this user, then do it again.`;
const DAMAGED =
  "The outbox in /data is damaged: a part of it cannot be read, and what is in that part may be lost. Nothing was repaired or removed. 'casetally outbox doctor' says what is hurt, 'casetally outbox rescue' copies what can be read to a new folder, 'casetally restore' takes a backup.";
const AWAY =
  'The outbox in /data cannot be reached or does not answer. Whether the last step was stored is not known: it may be done again, for nothing is stored or sent twice. Start it, or see why it is busy, then do it again.';

describe('a fault of a store', () => {
  it.each([
    ['SQLITE_FULL', 'outbox-full', FULL],
    ['SQLITE_IOERR_SHMSIZE', 'outbox-full', FULL],
    ['SQLITE_READONLY', 'outbox-read-only', READ_ONLY],
    ['SQLITE_READONLY_DBMOVED', 'outbox-read-only', READ_ONLY],
    ['SQLITE_PERM', 'outbox-read-only', READ_ONLY],
    ['SQLITE_AUTH', 'outbox-read-only', READ_ONLY],
    ['SQLITE_CANTOPEN', 'outbox-read-only', READ_ONLY],
    ['SQLITE_CORRUPT', 'outbox-damaged', DAMAGED],
    ['SQLITE_CORRUPT_INDEX', 'outbox-damaged', DAMAGED],
    ['SQLITE_IOERR_READ', 'outbox-damaged', DAMAGED],
    ['SQLITE_BUSY', 'outbox-away', AWAY],
    ['SQLITE_LOCKED', 'outbox-away', AWAY],
    ['SQLITE_PROTOCOL', 'outbox-away', AWAY],
  ])('%s is %s', (code, named, message) => {
    const error = thrown(code);
    const said = sqliteFault(error, '/data');
    expect(said).toBeInstanceOf(CasetallyError);
    expect(said).toMatchObject({ code: named, message: `${message} (${code})`, cause: error });
    expect(isOutboxFault(said)).toBe(true);
  });

  it.each([
    thrown('SQLITE_CONSTRAINT_UNIQUE'),
    thrown('NOT_SQLITE_FULL'),
    thrown('NOT_SQLITE_READONLY'),
    thrown('NOT_SQLITE_CORRUPT'),
    thrown('NOT_SQLITE_BUSY'),
    new Error('no code'),
    { code: 'SQLITE_FULL' },
    'SQLITE_FULL',
    undefined,
    null,
  ])('is not what else was thrown: %o', error => {
    expect(sqliteFault(error, '/data')).toBe(error);
    expect(isOutboxFault(error)).toBe(false);
  });

  it('has a word of the database behind it, where there is one', () => {
    expect(storeFault('outbox-away', '/data').message).toBe(AWAY);
    expect(storeFault('outbox-away', '/data', undefined, '08006').message).toBe(`${AWAY} (08006)`);
  });

  it('is about the store, not about the settings or another file', () => {
    expect(isOutboxFault(new CasetallyError('outbox-key', 'x'))).toBe(true);
    expect(isOutboxFault(new CasetallyError('settings-invalid', 'x'))).toBe(false);
    expect(isOutboxFault(new CasetallyError('file-unwritable', 'outbox-'))).toBe(false);
    expect(isOutboxFault({ code: 'outbox-key' })).toBe(false);
  });
});
