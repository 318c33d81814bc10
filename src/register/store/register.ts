import type { CaseFacts, PersonNumber } from '../facts.js';
import type { MeasureRows } from '../measures/rows.js';
import type { Decision, Gap, Unlinked, Use, UsePlan } from '../use.js';
import type { Owed } from './owed.js';

/** A use as lists have it. */
export type UseSummary = Omit<Use, 'events' | 'plans'>;

/** A version of a case to be taken in. */
export interface NewVersion {
  readonly facts: CaseFacts;
  /** Text of the record, to make the facts of it again. */
  readonly record: string;
  /** Item of the outbox that it was delivered with, which is then not replayed again. */
  readonly item?: string;
  /** Destination that accepted it. */
  readonly destination?: string;
}

/** What came of taking a version in. */
export interface Taken {
  /** False when this version was there already. */
  readonly isNew: boolean;
  /** Id of the person; absent where the record gives no number that counts. */
  readonly person?: string;
  /** What is left open in that person by this case. */
  readonly unlinked: readonly Unlinked[];
  readonly gaps: readonly Gap[];
  /** Uses of other people that carry a serial number of this case. */
  readonly sameSerial: readonly SameSerial[];
  /** Another text of the same version is there. */
  readonly versionTwice: boolean;
  /** Cases whose resources at destinations are to be looked at. */
  readonly changed: readonly string[];
}

/** A serial number that two people are said to have inside. */
export interface SameSerial {
  readonly di: string;
  readonly serial: string;
  readonly use: string;
  readonly other: string;
}

/** A person as the register knows them. */
export interface PersonRow {
  readonly id: string;
  readonly numbers: readonly PersonNumber[];
}

/** Something to be done about a use that is inside. */
export interface PlanRow extends Omit<UsePlan, 'closed'> {
  readonly use: UseSummary;
}

/** Which open plans are asked for. Days are `YYYY-MM-DD`. */
export interface PlanFilter {
  /** By the day that is named, else the last one allowed. */
  readonly from?: string;
  readonly to?: string;
  /** Passed on that day: by the last one allowed, else the day that is named. */
  readonly overdueOn?: string;
  readonly kind?: string;
  readonly by?: string;
  /** The first so many, soonest first. */
  readonly limit?: number;
}

/** A line of a recall. */
export interface RecallLine {
  readonly line: number;
  readonly di?: string;
  readonly lot?: string;
  readonly serial?: string;
  /** Expiry dates from and to, as precise as they are given. */
  readonly expiresFrom?: string;
  readonly expiresTo?: string;
}

/** A use that a line of a recall meets. */
export interface RecallHit {
  readonly line: number;
  readonly use: UseSummary;
  /** `perhaps`: it cannot be excluded, for what the line names is not known of it. */
  readonly answer: 'carries now' | 'carried' | 'perhaps';
  /** What is not known, for `perhaps`. */
  readonly unknown: readonly ('lot' | 'serial' | 'expiry' | 'identifier')[];
}

/** How much there is. */
export interface RegisterCounts {
  readonly cases: number;
  readonly people: number;
  readonly uses: number;
  readonly inside: number;
  readonly unlinked: number;
  readonly gaps: number;
  /** Versions whose record gives no number of a person that counts. */
  readonly withoutPerson: number;
}

/** Somebody said that two numbers are one person. */
export interface Joined {
  readonly one: PersonNumber;
  readonly other: PersonNumber;
  readonly by: string;
  readonly why: string;
  readonly at: number;
}

/** A case with the text of its record. */
export interface CaseText {
  readonly case: string;
  readonly record: string;
}

/** Something unsound that was found by folding anew. */
export interface Unsound {
  readonly person: string;
  readonly use: string;
}

/**
 * What is inside whom, until when. Every change is one transaction, and durable when its promise is fulfilled. What is
 * kept of uses is always what folding all cases of the person gives.
 */
export interface Register {
  /** What is still to be changed at destinations. */
  readonly owed: Owed;
  take(version: NewVersion, now: number): Promise<Taken>;
  /** Records a decision on a link and folds anew; undefined where the register has no such case and device. */
  decide(decision: Decision): Promise<{ readonly person: string } | undefined>;
  /** Takes two people for one. Undefined where one of the numbers is not held. */
  join(joined: Joined): Promise<string | undefined>;
  /** People that a number stands for; the system may be left open. */
  people(value: string, system?: string): Promise<readonly PersonRow[]>;
  /** All uses of a person, first placed first. */
  usesOf(person: string): Promise<readonly Use[]>;
  /** The use that a name stands for: `CASE/DEVICE` of any case that spoke of it. */
  use(name: string): Promise<Use | undefined>;
  person(id: string): Promise<PersonRow | undefined>;
  plans(filter: PlanFilter): Promise<readonly PlanRow[]>;
  /** How many there are, whatever the limit. */
  planCount(filter: PlanFilter): Promise<number>;
  /** Retrievable filters that are inside without an open plan for that day or later. */
  unreviewed(on: string): Promise<readonly UseSummary[]>;
  unlinked(): Promise<readonly Unlinked[]>;
  gaps(): Promise<readonly Gap[]>;
  recall(lines: readonly RecallLine[]): Promise<readonly RecallHit[]>;
  /** Uses inside of which no device identifier is known: no recall can find them. */
  insideWithoutIdentifier(): Promise<number>;
  counts(): Promise<RegisterCounts>;
  /** What measures of a period are made of; days `YYYY-MM-DD`, both within it. */
  measureRows(from: string, to: string): Promise<MeasureRows>;
  /** Items of the outbox that are not replayed yet. */
  notReplayed(items: readonly string[]): Promise<readonly string[]>;
  /** Says of items that hold no case that they need no replay. */
  setReplayed(items: readonly string[]): Promise<void>;
  /** Makes everything anew from the records; `factsOf` gives undefined for one that can no longer be read, whose facts then stay. */
  rebuild(
    factsOf: (record: string, facts: CaseFacts) => Promise<CaseFacts | undefined>,
  ): Promise<{ readonly unread: readonly string[] }>;
  /** The site's own cases of some days, in the newest version of each, one after the other. Either day may be left open. */
  records(from?: string, to?: string): AsyncIterable<CaseText>;
  /** The newest record of a case of the site's own; undefined where it is not held, or two versions contend. */
  record(name: string): Promise<string | undefined>;
  /** Seals everything with the present key. @returns how many versions and numbers were sealed anew. */
  rekey(): Promise<number>;
  /** Folds everything and names what differs from what is kept. */
  check(): Promise<readonly Unsound[]>;
  sameSerials(): Promise<readonly SameSerial[]>;
  /** What the database says of its own state; empty when it is whole. */
  integrity(): Promise<readonly string[]>;
  close(): Promise<void>;
}
