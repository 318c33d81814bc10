import type { DraftSummary } from '../drafts/store/drafts.js';
import type { Auditing } from './api/auditing.js';
import { type TakeInPorts, takeIn } from './api/draft-take-in.js';
import type { Wanted } from './threads/case-job.js';

export interface LeavingPorts extends TakeInPorts {
  /** What is wanted of a case that leaves. @param to the destination that was chosen with the signature */
  readonly wanted: (to: string | undefined) => Wanted;
  readonly auditing: Auditing;
  /** Told of a look that failed; the next one tries again. */
  readonly onFault?: (error: unknown) => void;
}

/** How often signed cases are looked for. */
const LOOK_MS = 5_000;
/**
 * A case that is being taken in for so long was most likely cut off there. Where another service is still at it, it is
 * taken in twice and stored once.
 */
const CUT_OFF_MS = 60_000;
const MOST = 200;
const BY = 'Casetally';

/**
 * Takes signed cases in for delivery once the time is over in which the signature can be taken back, those too whose
 * taking in was cut off. Several services on one database may do so at once: of two that try one draft one is refused,
 * and a case that is taken in twice is stored once.
 */
export class Leaving {
  readonly #ports: LeavingPorts;
  readonly #timer: NodeJS.Timeout;
  #looking: Promise<void> | undefined;
  #closed = false;

  constructor(ports: LeavingPorts, lookMs = LOOK_MS) {
    this.#ports = ports;
    this.#timer = setInterval(() => void this.look(), lookMs).unref();
  }

  /** Takes in what is due; waits for a look that is under way already. */
  look(): Promise<void> {
    this.#looking ??= this.#look()
      .catch(error => this.#ports.onFault?.(error))
      .finally(() => {
        this.#looking = undefined;
      });
    return this.#looking;
  }

  /** Waits for what was begun. */
  async close(): Promise<void> {
    this.#closed = true;
    clearInterval(this.#timer);
    await this.#looking;
  }

  async #look(): Promise<void> {
    const { drafts } = this.#ports;
    for (const draft of await drafts.store.list({ states: ['signed', 'taking-in'], limit: MOST })) {
      if (this.#closed) return;
      await this.#one(draft);
    }
  }

  async #one({ id, version, state, changedAt }: DraftSummary): Promise<void> {
    const { drafts, clock, wanted, auditing } = this.#ports;
    const rows = await drafts.store.versions(id, Math.max(0, version - 2));
    const { signature } = rows.findLast(row => row.state === 'signed') ?? {};
    // What a person takes in without a signature is taken up again by them.
    if (!signature) return;
    const due = state === 'signed' ? signature.leavesAt : changedAt + CUT_OFF_MS;
    if (due > clock()) return;
    const draft = await drafts.store.get(id);
    if (draft?.version !== version) return;
    const fact = { kind: 'change', who: { kind: 'token', name: BY }, doing: 'leave' } as const;
    const begun = await auditing.write({ ...fact, outcome: 'begun', about: [id] });
    if ('refused' in begun) return;
    const answer = await takeIn(draft, BY, wanted(signature.to), this.#ports);
    await auditing.write({ ...fact, outcome: answer.status, about: [id, ...(answer.noted?.items ?? [])] });
  }
}
