import type { Edit } from '../edits.js';
import type { DraftHead } from '../head.js';

/**
 * Where a draft stands. Only an open one is edited; one that was taken in or discarded stays so. A closed one waits for
 * its signature, a signed one for the end of the time in which that can be taken back. While it is taken in it is held,
 * so that nobody edits what is on its way; one that was cut off there is taken in again.
 */
export const draftStates = ['open', 'closed', 'signed', 'taking-in', 'taken-in', 'discarded'] as const;
export type DraftState = (typeof draftStates)[number];

/** The states that each may go to. */
export const nextStates: Readonly<Record<DraftState, readonly DraftState[]>> = {
  open: ['open', 'closed', 'signed', 'taking-in', 'taken-in', 'discarded'],
  closed: ['open', 'signed', 'taking-in', 'taken-in', 'discarded'],
  signed: ['open', 'taking-in', 'taken-in', 'discarded'],
  'taking-in': ['open', 'signed', 'taken-in'],
  'taken-in': [],
  discarded: [],
};

/** Who signed a draft, and what follows from it. */
export interface DraftSignature {
  /** As the version has it: with the token, or that the name was typed. */
  readonly by: string;
  /** True where an identity provider said just before who it was. */
  readonly verified: boolean;
  /** Team key under which the record has whoever signed. */
  readonly author: string;
  /** The version that was signed: its text is without the signature. */
  readonly of: number;
  /** When it leaves, in milliseconds since 1970; until then it can be taken back. */
  readonly leavesAt: number;
  /** The destination that was chosen; where the case goes by itself when absent. */
  readonly to?: string;
}

/** Who made a version and when, and what it changed. */
export interface VersionRow {
  readonly version: number;
  readonly state: DraftState;
  /** Milliseconds since 1970, by the clock of the machine that took it in. */
  readonly at: number;
  readonly by: string;
  /** The version that its edits were made for; an earlier one than that before it where they were merged. */
  readonly base: number;
  /** From the version before it to this one. */
  readonly edits: readonly Edit[];
  /** Of what was sent, to know it again. */
  readonly digest?: string;
  /** Why, where it was discarded. */
  readonly why?: string;
  /** Items of the outbox that it was taken in as. */
  readonly items?: readonly string[];
  readonly signature?: DraftSignature;
}

/** A draft without its text. */
export interface DraftSummary extends DraftHead {
  readonly id: string;
  readonly version: number;
  readonly state: DraftState;
  /** Day of the case, else that on which it was begun: `YYYY-MM-DD`. */
  readonly day: string;
  readonly begunAt: number;
  readonly changedAt: number;
  /** Who changed it last. */
  readonly by: string;
}

export interface Draft extends DraftSummary {
  readonly text: string;
}

/** A version to be kept. */
export interface NewVersion {
  readonly text: string;
  readonly by: string;
  readonly at: number;
  readonly state: DraftState;
  readonly edits: readonly Edit[];
  readonly base: number;
  /** Made by whoever sent it; a second one with the same id is the same. */
  readonly batch?: string;
  /** Of what was sent with that id. */
  readonly digest?: string;
  readonly why?: string;
  readonly items?: readonly string[];
  readonly signature?: DraftSignature;
}

/** What came of writing. */
export type Written =
  | { readonly done: DraftSummary }
  /** The draft has another version by now, and nothing was written. */
  | { readonly stale: number }
  /** That batch is there already: as this version. `same` is false where it held other edits. */
  | { readonly repeated: number; readonly same: boolean }
  | { readonly missing: true };

/** Which drafts are asked for. */
export interface DraftFilter {
  readonly day?: string;
  readonly states?: readonly DraftState[];
  /** Days from this one on. */
  readonly since?: string;
  readonly limit: number;
}

/**
 * Drafts with every version. A write names the version it was made for, and is one transaction: of two at once one wins.
 * What is fulfilled is durable.
 */
export interface Drafts {
  /** @param id opaque and not to be guessed */
  begin(id: string, day: string, version: NewVersion): Promise<DraftSummary>;
  get(id: string): Promise<Draft | undefined>;
  /** The newest version, its number alone; undefined where there is no such draft. */
  version(id: string): Promise<number | undefined>;
  /** Of a day, first begun first; of all days where none is named. At most `limit`. */
  list(filter: DraftFilter): Promise<readonly DraftSummary[]>;
  /** In order; those after one where that is named. */
  versions(id: string, after?: number): Promise<readonly VersionRow[]>;
  /** The text of a version; undefined where there is none. */
  textOf(id: string, version: number): Promise<string | undefined>;
  /** Whether a batch is there already; undefined where it is not. */
  batch(
    id: string,
    batch: string,
    digest: string,
  ): Promise<Extract<Written, { repeated: number }> | undefined>;
  write(id: string, expected: number, version: NewVersion): Promise<Written>;
  /** Erases what was discarded, or taken in, before a time. @returns how many drafts. */
  purge(before: { readonly discarded: number; readonly takenIn: number }): Promise<number>;
  /** Seals everything with the present key. @returns how many rows. */
  rekey(): Promise<number>;
  integrity(): Promise<readonly string[]>;
  close(): Promise<void>;
}
