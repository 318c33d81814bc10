import type { Finding } from '../../findings/finding.js';
import type { Receipt } from '../receipt/receipt.js';
import type { Accepted } from '../request/expected.js';

/** What is to go to one destination, as it is put into the outbox. */
export interface NewItem {
  readonly destination: string;
  /** The case that it is about: a later item of the same case never overtakes an earlier one. */
  readonly caseKey: string;
  /** The patient: items of one patient go one after the other. An opaque word, not a name. */
  readonly patientKey: string;
  /** The submission, byte for byte; the versions that its updates ask for are added when it is sent. */
  readonly payload: string;
  /** `sha256:…` of the payload. */
  readonly digest: string;
  /** What is kept beside the submission: the map back to the record, and what the record says of the patient. */
  readonly context?: string;
  /** True to update what is there whatever its version. */
  readonly overwrite?: boolean;
}

/**
 * waiting: due at `notBefore`. sending: a worker holds it. delivered: the receipt is there. parked: it needs a
 * person. discarded: a person decided that it is not sent.
 */
export const itemStates = ['waiting', 'sending', 'delivered', 'parked', 'discarded'] as const;
export type ItemState = (typeof itemStates)[number];

/** What the last attempt came to, or what a person decided: why an item waits, is parked or discarded. */
export interface Parked {
  readonly reason: string;
  /** Who decided; 'casetally' when the outcome did. */
  readonly by: string;
  readonly at: number;
  /** What the server and Casetally said; may hold patient data. */
  readonly findings: readonly Finding[];
  /** The server's answer as it came; may hold patient data. */
  readonly answer?: string;
  /** The time that the server named before which it is to be left alone (`Retry-After`). */
  readonly askedUntil?: number;
}

/** One item of the outbox. All times are milliseconds since the epoch. */
export interface OutboxItem extends NewItem {
  readonly id: string;
  /** Order of arrival, strictly rising. */
  readonly sequence: number;
  readonly state: ItemState;
  readonly createdAt: number;
  readonly notBefore: number;
  /** Sends begun. */
  readonly attempts: number;
  /**
   * The latest time at which a send may have taken effect of which nothing is known; absent when all is known.
   * Written down before each send begins, so that a crash in the middle of one leaves it standing, and renewed
   * by each further one: absence is believed only when the search lag has passed since.
   */
  readonly unknownSince?: number;
  /** Word for what the last attempt came to. */
  readonly lastReason?: string;
  readonly parked?: Parked;
  /** Near matches that a person let pass; they hold patient data. */
  readonly accepted?: readonly Accepted[];
  readonly receipt?: Receipt;
  /** True where what is kept was changed or cut: what could not be opened is left out, the payload empty. */
  readonly unreadable?: true;
}

/** The right to work on one item, for a time. The fence rises with each claim, so an old holder is known. */
export interface Lease {
  readonly item: OutboxItem;
  readonly fence: number;
  readonly until: number;
}

/** What a finished attempt came to. */
export type Settlement =
  | { readonly kind: 'delivered'; readonly receipt: Receipt }
  /** `unknown`: whether a send may have taken effect; 'as before' where none was made. */
  | {
      readonly kind: 'again';
      readonly notBefore: number;
      readonly reason: string;
      readonly unknown: boolean | 'as before';
      /** What was said, kept until the next attempt; absent where none was made. */
      readonly said?: Parked;
    }
  /** `known`: the destination certainly did not take it; else what was not known stays so. */
  | { readonly kind: 'parked'; readonly parked: Parked; readonly known?: boolean };

/** The state of a destination as all workers share it. */
export interface Gate {
  readonly destination: string;
  /** Nothing is sent before this time. */
  readonly closedUntil: number;
  /** Failures in a row; decides how long it stays closed. */
  readonly failures: number;
  /** Set when a person must open it again. */
  readonly paused?: string;
}

/** What a person chose for an item that is to go again. */
export interface Chosen {
  /** All that was accepted for it, what was accepted before among it; absent: as it was. */
  readonly accepted?: readonly Accepted[];
  /** True to update what is there whatever its version. */
  readonly overwrite?: boolean;
}

/** Numbers about one destination, without anything about patients. */
export interface Depth {
  readonly destination: string;
  readonly waiting: number;
  readonly sending: number;
  readonly parked: number;
  readonly delivered: number;
  readonly unknown: number;
  /** When the oldest item that is not delivered came in. */
  readonly oldest?: number;
}

/** What looking through the whole outbox has shown. */
export interface Checked {
  /** What the store says of itself; empty when it is whole. */
  readonly store: readonly string[];
  /** Every item; one that cannot be opened has its id alone. */
  readonly items: readonly { readonly id: string; readonly item?: OutboxItem }[];
}

export interface ItemFilter {
  readonly destination?: string;
  readonly caseKey?: string;
  readonly patientKey?: string;
  readonly states?: readonly ItemState[];
  /** True to list items that cannot be opened as well. */
  readonly unreadable?: boolean;
  readonly limit?: number;
}

/**
 * The durable queue in front of the destinations. Every method is one durable step: when its promise is
 * fulfilled, the step survives a crash. Delivery is at least once, with an effect of exactly once: see
 * `unknownSince`.
 */
export interface Outbox {
  /**
   * Takes an item in. The same payload for the same destination and case, when it is the newest of the case
   * there and not discarded, is not taken twice: the item already there is given back, unless this one is to
   * overwrite and that one was not.
   */
  put(item: NewItem, now: number): Promise<OutboxItem>;
  /**
   * Claims the next item of a destination that is due: in order of arrival, none of a patient who has one being
   * sent or an earlier one waiting, none of a case that has an earlier one parked. An item whose lease has run
   * out counts as waiting, and what its holder may have sent as sent when the lease ran out. One that cannot be opened is
   * parked, and the next is claimed.
   */
  claim(destination: string, now: number, leaseMs: number): Promise<Lease | undefined>;
  /** Notes that a send begins; false when the lease is no longer held: then nothing may be sent. */
  begin(lease: Lease, now: number): Promise<boolean>;
  /** Prolongs a lease; false when it is no longer held. */
  extend(lease: Lease, until: number, now: number): Promise<boolean>;
  /** Ends an attempt; false when the lease is no longer held: then nothing is written. */
  settle(lease: Lease, settlement: Settlement, now: number): Promise<boolean>;
  /**
   * Makes a waiting or parked item due now; false when there is none such.
   * @param chosen what a person chose for it.
   */
  retry(id: string, now: number, chosen?: Chosen): Promise<boolean>;
  park(id: string, parked: Parked): Promise<boolean>;
  discard(id: string, parked: Parked): Promise<boolean>;
  /** @throws CasetallyError 'outbox-unreadable' for one that cannot be opened. */
  get(id: string): Promise<OutboxItem | undefined>;
  /** In order of arrival. */
  list(filter?: ItemFilter): Promise<OutboxItem[]>;
  /** Ids of the items of a state, in order of arrival; what they hold is not opened. */
  idsOf(state: ItemState): Promise<string[]>;
  depths(): Promise<Depth[]>;
  /** When the next waiting item or running lease falls due, among the given destinations. */
  nextDue(destinations: readonly string[]): Promise<number | undefined>;
  gate(destination: string): Promise<Gate>;
  /**
   * Changes a gate in one step: whatever others change at the same time is done before or after. @param change
   * pure; it may be called more than once.
   */
  changeGate(destination: string, change: (gate: Gate) => Gate): Promise<void>;
  /**
   * Removes what was delivered, or discarded, before a time, as retention asks: the receipt's time counts, not that
   * of arrival. @returns how many.
   */
  purge(before: number): Promise<number>;
  /**
   * Seals everything with the present key, item by item, what was not sealed too; may be begun again where it ended.
   * @returns how many items were changed.
   * @throws CasetallyError 'outbox-key', before anything is changed, when a key is missing.
   */
  rekey(): Promise<number>;
  /** Looks whether the store is whole and every item can be opened. */
  check(): Promise<Checked>;
  close(): Promise<void>;
}
