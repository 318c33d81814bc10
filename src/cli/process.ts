import { createHash, randomUUID } from 'node:crypto';
import { existsSync, readFileSync } from 'node:fs';
import { homedir } from 'node:os';
import { join, resolve } from 'node:path';
import { openPostgresAudit, openSqliteAudit } from '../audit/store/open.js';
import type { AuditTrail } from '../audit/trail.js';
import { type SecretSource, secretSource } from '../delivery/auth/secrets.js';
import { statementsInFile, statementsInMemory } from '../delivery/destination/capability-cache.js';
import { holdsPassword, isPostgresAddress, openPostgresOutbox } from '../delivery/outbox/open-postgres.js';
import type { Outbox } from '../delivery/outbox/outbox.js';
import { dataFolder, outboxFile } from '../delivery/outbox/place.js';
import { type Sealing, sealingWith, unsealed } from '../delivery/outbox/sealing.js';
import { openSqliteOutbox } from '../delivery/outbox/sqlite-outbox.js';
import { inSpan } from '../delivery/telemetry/traces.js';
import type { WorkerDeps } from '../delivery/worker/worker.js';
import type { Drafts } from '../drafts/store/drafts.js';
import { openPostgresDrafts, openSqliteDrafts } from '../drafts/store/open.js';
import { CasetallyError } from '../findings/errors.js';
import { sourceFrom } from '../pipeline/outbox-item.js';
import { openPostgresRegister, openSqliteRegister } from '../register/store/open.js';
import type { Register } from '../register/store/register.js';
import { openPostgresSubmissions, openSqliteSubmissions } from '../registry/store/open.js';
import type { Submissions } from '../registry/store/submissions.js';

/** Secrets of this process: environment variables, and files by a path from a folder, that of the site configuration. */
export const secretsFrom = (folder: string): SecretSource =>
  secretSource(
    process.env,
    path => {
      try {
        return readFileSync(path, 'utf8');
      } catch {
        return undefined;
      }
    },
    path => resolve(folder, path),
  );

const placeOf = (data: string | undefined) => dataFolder(data, process.env, process.platform, homedir());

/** The keys of CASETALLY_OUTBOX_KEY, the first of which seals. */
export function sealingOf(): Sealing {
  const [first, ...older] = (process.env['CASETALLY_OUTBOX_KEY'] ?? '').split(',').filter(key => key !== '');
  return first === undefined ? unsealed : sealingWith([first, ...older]);
}

/** The file of the embedded store. @throws CasetallyError 'usage' for one in PostgreSQL. */
export const storeFile = (data: string | undefined): string => outboxFile(folderOf(data, 'outbox'));

/** The file of the register beside it. @throws CasetallyError 'usage' for one in PostgreSQL. */
export const registerFile = (data: string | undefined): string => registerIn(folderOf(data, 'register'));

/** The file of what was given to registries; @throws CasetallyError 'usage' for a database. */
export const submissionsFile = (data: string | undefined): string =>
  submissionsIn(folderOf(data, 'registry'));

const submissionsIn = (folder: string) => join(folder, 'registry.db');

const auditIn = (folder: string) => join(folder, 'audit.db');

/** The file of the audit trail; @throws CasetallyError 'usage' for a database. */
export const auditFile = (data: string | undefined): string => auditIn(folderOf(data, 'audit trail'));

const registerIn = (folder: string) => join(folder, 'register.db');

function folderOf(data: string | undefined, what: string): string {
  const place = placeOf(data);
  if (!isPostgresAddress(place)) return place;
  throw new CasetallyError(
    'usage',
    `this is for the ${what} in a file; one in PostgreSQL is copied with the programs of the database (pg_dump, pg_restore).`,
  );
}

/**
 * The outbox of `--data`, CASETALLY_DATA or the platform's folder; sealed when CASETALLY_OUTBOX_KEY is set. `path` is
 * where it is, in words that may be shown. @param anyKeys whatever its items are sealed with: to look, or to rekey.
 */
export async function openOutbox(
  data: string | undefined,
  anyKeys = false,
): Promise<{ outbox: Outbox; path: string }> {
  const options = { anyKeys, newId: () => randomUUID(), sealing: sealingOf() };
  const place = placeOf(data);
  if (!isPostgresAddress(place)) {
    const path = outboxFile(place);
    return { outbox: await openSqliteOutbox(path, options), path };
  }
  if (data !== undefined && holdsPassword(data))
    throw new CasetallyError(
      'usage',
      'a password on the command line can be read by everyone on this machine: give the address in CASETALLY_DATA, or the password in PGPASSWORD or a password file.',
    );
  const outbox = await openPostgresOutbox(place, { ...options, clock: () => Date.now() });
  return { outbox, path: 'the PostgreSQL database' };
}

/**
 * The register beside the outbox: a file in its folder, or a schema of its own in the same database. `path` is where it
 * is, in words that may be shown. @param anyKeys whatever it is sealed with: to change its keys.
 */
export async function openRegister(
  data: string | undefined,
  ownSystem: string,
  anyKeys = false,
): Promise<{ register: Register; path: string }> {
  const options = { sealing: sealingOf(), ownSystem, anyKeys };
  const place = placeOf(data);
  if (isPostgresAddress(place))
    return { register: await openPostgresRegister(place, options), path: 'the PostgreSQL database' };
  const path = registerIn(place);
  return { register: await openSqliteRegister(path, options), path };
}

/**
 * What was given to registries, beside the outbox: a file in its folder, or a schema of its own in the same database.
 * @param anyKeys whatever it is sealed with: to change its keys
 */
export async function openSubmissions(data: string | undefined, anyKeys = false): Promise<Submissions> {
  const options = { sealing: sealingOf(), anyKeys };
  const place = placeOf(data);
  return isPostgresAddress(place)
    ? openPostgresSubmissions(place, options)
    : openSqliteSubmissions(submissionsIn(place), options);
}

/**
 * The audit trail beside the outbox: a file in its folder, or a schema of its own in the same database. `path` is where
 * it is, in words that may be shown. @param anyKeys whatever it is sealed with: to change its keys.
 */
export async function openAudit(
  data: string | undefined,
  anyKeys = false,
): Promise<{ trail: AuditTrail; path: string }> {
  const options = { sealing: sealingOf(), anyKeys };
  const place = placeOf(data);
  if (isPostgresAddress(place))
    return { trail: await openPostgresAudit(place, options), path: 'the PostgreSQL database' };
  const path = auditIn(place);
  return { trail: await openSqliteAudit(path, options), path };
}

/** True where there is an audit trail; in a database it is made with the first look. */
export function hasAudit(data: string | undefined): boolean {
  const place = placeOf(data);
  return isPostgresAddress(place) || existsSync(auditIn(place));
}

/**
 * The folder in which `casetally bulk` writes down what it did: beside the outbox where that is a file, else in the
 * platform's folder.
 * @param of what was done with what, to where
 */
export function bulkFolder(data: string | undefined, of: readonly string[]): string {
  const place = placeOf(data);
  const isAway = isPostgresAddress(place);
  const folder = isAway
    ? dataFolder(undefined, { ...process.env, CASETALLY_DATA: undefined }, process.platform, homedir())
    : place;
  const name = createHash('sha256').update(JSON.stringify([...of, isAway ? withoutSecret(place) : '']));
  return join(folder, 'bulk', name.digest('hex').slice(0, 16));
}

function withoutSecret(address: string): string {
  const url = URL.canParse(address) ? new URL(address) : undefined;
  return url ? `${url.host}${url.pathname}` : '';
}

const draftsIn = (folder: string) => join(folder, 'drafts.db');

/** The file of the drafts; @throws CasetallyError 'usage' for a database. */
export const draftsFile = (data: string | undefined): string => draftsIn(folderOf(data, 'drafts'));

/**
 * Drafts of cases, beside the outbox: a file in its folder, or a schema of its own in the same database.
 * @param anyKeys whatever they are sealed with: to change their keys
 */
export async function openDrafts(data: string | undefined, anyKeys = false): Promise<Drafts> {
  const options = { sealing: sealingOf(), anyKeys };
  const place = placeOf(data);
  return isPostgresAddress(place)
    ? openPostgresDrafts(place, options)
    : openSqliteDrafts(draftsIn(place), options);
}

/** True where there are drafts; in a database they are made with the first look. */
export function hasDrafts(data: string | undefined): boolean {
  const place = placeOf(data);
  return isPostgresAddress(place) || existsSync(draftsIn(place));
}

/** True where something was given to registries; in a database it is made with the first look. */
export function hasSubmissions(data: string | undefined): boolean {
  const place = placeOf(data);
  return isPostgresAddress(place) || existsSync(submissionsIn(place));
}

/** True where there is a register in that place; in a database it is made with the first look. */
export function hasRegister(data: string | undefined): boolean {
  const place = placeOf(data);
  return isPostgresAddress(place) || existsSync(registerIn(place));
}

/** True where there is an outbox that the register may have missed something of. */
export function hasOutbox(data: string | undefined): boolean {
  const place = placeOf(data);
  return isPostgresAddress(place) || existsSync(outboxFile(place));
}

/**
 * What sending needs of this process. What servers say of themselves is kept beside the outbox where that is a file;
 * their messages lead back to the record by the map that was stored with the item.
 */
export function processDeps(data: string | undefined): Omit<WorkerDeps, 'targets' | 'outbox'> {
  const place = placeOf(data);
  return {
    clock: () => Date.now(),
    newId: () => randomUUID(),
    random: Math.random,
    sourceOf: sourceFrom,
    statements: isPostgresAddress(place)
      ? statementsInMemory()
      : statementsInFile(join(place, 'metadata.json')),
    traced: inSpan,
  };
}
