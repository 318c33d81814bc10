import { randomUUID } from 'node:crypto';
import { homedir } from 'node:os';
import { join } from 'node:path';
import type { SourceOf } from '../delivery/answer/say.js';
import {
  type StatementStore,
  statementsInFile,
  statementsInMemory,
} from '../delivery/destination/capability-cache.js';
import { holdsPassword, isPostgresAddress, openPostgresOutbox } from '../delivery/outbox/open-postgres.js';
import type { Outbox, OutboxItem } from '../delivery/outbox/outbox.js';
import { dataFolder, outboxFile } from '../delivery/outbox/place.js';
import { sealingWith } from '../delivery/outbox/sealing.js';
import { openSqliteOutbox } from '../delivery/outbox/sqlite-outbox.js';
import { readSubmission } from '../delivery/request/submission.js';
import { inSpan } from '../delivery/telemetry/traces.js';
import type { WorkerDeps } from '../delivery/worker/worker.js';
import { CasetallyError } from '../findings/errors.js';
import { sourceIn } from '../pipeline/submit.js';

/**
 * The outbox of `--data`, CASETALLY_DATA or the platform's folder; sealed when CASETALLY_OUTBOX_KEY is set. `path` is
 * where it is, in words that may be shown.
 */
export async function openOutbox(data: string | undefined): Promise<{ outbox: Outbox; path: string }> {
  const [first, ...older] = (process.env['CASETALLY_OUTBOX_KEY'] ?? '').split(',').filter(key => key !== '');
  const sealing = first === undefined ? undefined : sealingWith([first, ...older]);
  const options = { newId: () => randomUUID(), ...(sealing && { sealing }) };
  const place = dataFolder(data, process.env, process.platform, homedir());
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

/** What sending from the outbox needs from this process. */
export function workerDeps(outbox: Outbox, data: string | undefined): Omit<WorkerDeps, 'targets'> {
  return {
    outbox,
    clock: () => Date.now(),
    newId: () => randomUUID(),
    random: Math.random,
    sourceOf,
    statements: statementsOf(data),
    traced: inSpan,
  };
}

/** Where this machine keeps what servers say of themselves: beside the outbox where that is a file. */
export function statementsOf(data: string | undefined): StatementStore {
  const place = dataFolder(data, process.env, process.platform, homedir());
  return isPostgresAddress(place) ? statementsInMemory() : statementsInFile(join(place, 'metadata.json'));
}

/** Server messages lead back to the record by the map that was stored with the item. */
function sourceOf(item: OutboxItem): SourceOf {
  const submission = readSubmission(item.payload);
  return (index, path) => {
    const fullUrl = submission?.entries[index]?.fullUrl;
    return fullUrl === undefined || item.context === undefined
      ? undefined
      : sourceIn(item.context, fullUrl, path);
  };
}
