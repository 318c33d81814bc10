import type { EntryElements } from '../entry/elements.js';
import type { PatientNumber } from '../patient-number.js';

/**
 * How a batch stands. `made`: kept, and no byte of it has gone out. `sending`: it may have. `sent`: the registry has it,
 * and has not answered. `answered`: every line has its answer, or has gone into another batch.
 */
export type BatchState = 'made' | 'sending' | 'sent' | 'answered';

/** What the registry said of a line; `open` until it says something, `missing` where its answer left it out. */
export type LineState = 'open' | 'accepted' | 'duplicate' | 'refused' | 'missing';

/** What a batch is, fixed when it is made. It holds no number of the site's. */
export interface BatchManifest {
  readonly registry: string;
  readonly batch: string;
  /** Name, version and SHA-256 of the definition that it was made by. */
  readonly definition: { readonly name: string; readonly version: string; readonly sha256: string };
  readonly sender: { readonly software: string; readonly unit?: string };
  /** ISO time at which it was made. */
  readonly made: string;
  readonly format: string;
  readonly entries: number;
  readonly cases: number;
  /** First and last date in the entries, at their precision. */
  readonly from?: string;
  readonly to?: string;
  readonly sha256: string;
  readonly keyId: string;
  /** Lines that were held back when it was made, as numbers that the site alone can look up. */
  readonly withheld: readonly number[];
}

export interface BatchRow {
  readonly registry: string;
  readonly id: string;
  readonly state: BatchState;
  readonly manifest: BatchManifest;
  readonly madeAt: number;
  /** When it was last tried. */
  readonly triedAt?: number;
  readonly answeredAt?: number;
  /** Why the last try came to nothing, in words. */
  readonly reason?: string;
}

/** How an entry is called at the site: a device, or part of one, in a case. */
export interface EntryName {
  readonly case: string;
  readonly device: string;
  readonly part?: string;
  /** Where a counted device has several entries, which of them. */
  readonly action?: string;
}

/** What of a case an entry is about: `drain`, or `drain/lock` for a part. */
export const deviceText = ({ device, part }: Pick<EntryName, 'device' | 'part'>): string =>
  part === undefined ? device : `${device}/${part}`;

/** A line of a batch, as it is kept. */
export interface NewLine {
  readonly name: EntryName;
  /** Version of the entry at the registry. */
  readonly version: number;
  /** Version of the case that it is from. */
  readonly caseVersion: number;
  /** SHA-256 of what the entry says, pseudonyms and versions aside. */
  readonly digest: string;
  readonly elements: EntryElements;
  /** How coarse date and age were made. */
  readonly coarser: number;
  readonly number: PatientNumber;
}

export interface Line extends NewLine {
  readonly registry: string;
  readonly batch: string;
  /** Place in the batch, from 1. */
  readonly line: number;
  readonly state: LineState;
  /** What the registry said. */
  readonly code?: string;
  readonly says?: string;
}

/** What an answer says of one line. */
export interface Verdict {
  readonly name: EntryName;
  readonly version: number;
  readonly state: Exclude<LineState, 'open'>;
  readonly code?: string;
  readonly says?: string;
}

/** A case, or device of one, that was held back when a batch was made. */
export interface Withheld {
  readonly number: number;
  readonly case: string;
  readonly device: string;
  readonly codes: readonly string[];
}

export interface KeyPrint {
  readonly keyId: string;
  readonly fingerprint: string;
  readonly since: number;
}

/** What a pseudonym stands for at this site. */
export interface Resolved {
  readonly registry: string;
  readonly kind: 'entry' | 'case' | 'patient';
  readonly case: string;
  readonly device?: string;
  readonly number: PatientNumber;
}

/** Somebody looked up what a pseudonym stands for. */
export interface Access {
  readonly at: number;
  readonly by: string;
  readonly why: string;
  readonly registry: string;
  readonly pseudonym: string;
  readonly found: number;
}

/** Counts of the lines of a registry by what became of the newest version of each entry. */
export type LineCounts = Readonly<Record<LineState, number>>;

/**
 * What was given to registries, and what they said. Every change is one transaction, and durable when its promise is
 * fulfilled.
 */
export interface Submissions {
  keys(registry: string): Promise<readonly KeyPrint[]>;
  /** Keeps the fingerprint of a key at its first use. */
  setKey(registry: string, key: KeyPrint): Promise<void>;
  /** The newest line of each entry of a case. */
  linesOfCase(registry: string, name: string): Promise<readonly Line[]>;
  /** Keeps a batch, its text and its lines, before anything of it is sent. */
  addBatch(
    batch: BatchRow,
    content: string,
    lines: readonly NewLine[],
    withheld: readonly Withheld[],
  ): Promise<void>;
  setBatch(registry: string, id: string, change: BatchChange): Promise<void>;
  /** In the order in which they were made. */
  batches(registry: string, states?: readonly BatchState[]): Promise<readonly BatchRow[]>;
  batch(registry: string, id: string): Promise<BatchRow | undefined>;
  content(registry: string, id: string): Promise<string>;
  lines(registry: string, batch: string): Promise<readonly Line[]>;
  /** The newest lines that stand so. */
  linesIn(registry: string, states: readonly LineState[]): Promise<readonly Line[]>;
  withheld(registry: string, batch: string): Promise<readonly Withheld[]>;
  /** Keeps an answer as it came, and what it says of each line. A line that was answered already stays as it is. */
  setAnswer(registry: string, batch: string, answer: NewAnswer): Promise<void>;
  /** How many answers of that digest are kept: an answer that was read already says nothing new. */
  hasAnswer(registry: string, digest: string): Promise<boolean>;
  counts(registry: string): Promise<LineCounts>;
  /** Keeps in which groups of people that are alike a case puts its person, in place of those from before. */
  setAlike(registry: string, name: string, person: string, groups: readonly string[]): Promise<void>;
  /** How many people are in each of some groups. */
  alike(registry: string, groups: readonly string[]): Promise<ReadonlyMap<string, number>>;
  /** What a pseudonym stands for; the look is kept with it. */
  resolve(access: Omit<Access, 'found' | 'registry'>): Promise<readonly Resolved[]>;
  accesses(): Promise<readonly Access[]>;
  /** Pseudonyms of everything that was sent under another key than this one. */
  sentUnder(registry: string, keyId: string): Promise<readonly Line[]>;
  rekey(): Promise<number>;
  integrity(): Promise<readonly string[]>;
  close(): Promise<void>;
}

export interface BatchChange {
  readonly state: BatchState;
  readonly at: number;
  /** In words; absent takes one from before away. */
  readonly reason?: string;
}

export interface NewAnswer {
  readonly text: string;
  readonly digest: string;
  readonly at: number;
  readonly verdicts: readonly Verdict[];
}
