import type { BatchRow, Line } from '../../../registry/store/submissions.js';

/**
 * What came of giving a batch to a registry. `not sent`: no byte of it went out. `unknown`: it may have arrived.
 * Reasons are sentences for people.
 */
export type PutOutcome =
  | { readonly kind: 'sent' }
  | { readonly kind: 'answered'; readonly text: string }
  | { readonly kind: 'not sent'; readonly reason: string }
  | { readonly kind: 'refused'; readonly reason: string }
  | { readonly kind: 'unknown'; readonly reason: string };

/** What a registry knows of a batch whose sending was cut off. */
export type AskOutcome =
  | { readonly kind: 'sent' }
  | { readonly kind: 'answered'; readonly text: string }
  /** It holds every entry of the batch as it was sent. */
  | { readonly kind: 'held' }
  | { readonly kind: 'not arrived' }
  | { readonly kind: 'unknown'; readonly reason: string };

/** An answer that lies ready, and which batch it is about where that can be told. */
export interface FoundAnswer {
  /** File or address, for messages. */
  readonly from: string;
  readonly batch?: string;
  readonly text: string;
}

/** A way to a registry. A batch that is given twice is one batch there: it has the same number and the same bytes. */
export interface Transport {
  put(batch: BatchRow, content: string): Promise<PutOutcome>;
  /** Asked before a batch is sent again whose first sending may have arrived. */
  ask(batch: BatchRow, lines: readonly Line[]): Promise<AskOutcome>;
  /** Answers that lie ready for batches that wait for one. */
  answers(waiting: readonly BatchRow[]): Promise<readonly FoundAnswer[]>;
}
