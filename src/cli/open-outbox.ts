import { randomUUID } from 'node:crypto';
import { homedir } from 'node:os';
import type { Outbox, OutboxItem } from '../delivery/outbox/outbox.js';
import { dataFolder, outboxFile } from '../delivery/outbox/place.js';
import { sealingWith } from '../delivery/outbox/sealing.js';
import { openSqliteOutbox } from '../delivery/outbox/sqlite-outbox.js';
import type { SourceOf } from '../delivery/say.js';
import { readSubmission } from '../delivery/submission.js';
import type { WorkerDeps } from '../delivery/worker/worker.js';
import { sourceIn } from '../pipeline/submit.js';

/** The outbox of `--data`, CASETALLY_DATA or the platform's folder; sealed when CASETALLY_OUTBOX_KEY is set. */
export async function openOutbox(data: string | undefined): Promise<{ outbox: Outbox; path: string }> {
  const path = outboxFile(dataFolder(data, process.env, process.platform, homedir()));
  const [first, ...older] = (process.env['CASETALLY_OUTBOX_KEY'] ?? '').split(',').filter(key => key !== '');
  const sealing = first === undefined ? undefined : sealingWith([first, ...older]);
  const outbox = await openSqliteOutbox(path, { newId: () => randomUUID(), ...(sealing && { sealing }) });
  return { outbox, path };
}

/** What sending from the outbox needs from this process. */
export function workerDeps(outbox: Outbox): Omit<WorkerDeps, 'targets'> {
  return { outbox, clock: () => Date.now(), newId: () => randomUUID(), random: Math.random, sourceOf };
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
