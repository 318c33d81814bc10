import type { DescribedDevice, PlanFact } from './facts.js';

/** What is known of a use at the moment. */
export type UseState =
  /** All or some of it is in the patient. */
  | 'inside'
  /** All of it came out. */
  | 'removed'
  /** Nobody can account for it, or find it. */
  | 'unknown'
  /** The case that told of it was withdrawn, or corrected so that it no longer does. */
  | 'withdrawn';

/** By what a device of a case was taken for one that is inside. */
export type Evidence = 'decided' | 'use' | 'case' | 'serial' | 'lot';

/** Something that happened to a use. */
export interface UseEvent {
  readonly kind: 'inserted' | 'seen' | 'repositioned' | 'removed' | 'part left' | 'corrected' | 'withdrawn';
  /** As precise as it is known; absent when nobody knows. */
  readonly date?: string;
  /** Name of the case that tells it, and its version. */
  readonly case: string;
  readonly version: number;
  /** What the case calls it: `CASE/DEVICE` or `CASE/DEVICE/PART`. */
  readonly as: string;
  /** How many of a counted device. */
  readonly count?: number;
  /** How the case was taken to speak of this use; absent in the case that placed it. */
  readonly evidence?: Evidence;
  readonly note?: string;
}

/** Something to be done about a use, and what came of it. */
export interface UsePlan extends PlanFact {
  readonly case: string;
  /** Absent while it is open. */
  readonly closed?: {
    readonly how: 'removed' | 'exchanged' | 'planned anew' | 'died' | 'withdrawn';
    readonly case: string;
    readonly date?: string;
  };
}

/** One device, part or number alike in one person, from the case that placed it to the one that took it out. */
export interface Use extends DescribedDevice {
  /** `CASE/DEVICE` or `CASE/DEVICE/PART` of the case that tells of it first. */
  readonly id: string;
  /** Person that it is in. */
  readonly person: string;
  readonly state: UseState;
  /** When it was placed, as precise as it is known. */
  readonly placed?: string;
  /** False where the case that placed it is not held. */
  readonly insertionHeld: boolean;
  /** When the last of it came out. */
  readonly ended?: string;
  /** Whole days from placing to end, where both are known to the day. */
  readonly dwellDays?: number;
  /** How many, and how many of them are still inside. */
  readonly count: number;
  readonly inside: number;
  /** Day that the open plan names, and the last one that it allows. */
  readonly due?: string;
  readonly latest?: string;
  readonly events: readonly UseEvent[];
  readonly plans: readonly UsePlan[];
}

/** A device of a case that was not taken for a use that is inside though one may be meant; a person decides. */
export interface Unlinked {
  readonly person: string;
  readonly case: string;
  readonly device: string;
  readonly name: string;
  readonly date: string;
  readonly why: 'several fit' | 'contradiction' | 'proposed';
  /** Uses that may be meant. */
  readonly candidates: readonly string[];
  /** What contradicts. */
  readonly against: readonly Contradiction[];
}

/** `use` and `case`: the record names one that this is not. */
export type Contradiction =
  | 'serial'
  | 'lot'
  | 'identifier'
  | 'side'
  | 'dates'
  | 'kind'
  | 'count'
  | 'case'
  | 'use';

/** A use that stays open although a later case saw another device of its kind at its place. */
export interface Gap {
  readonly person: string;
  readonly use: string;
  readonly case: string;
  readonly device: string;
}

/** What a person said of a link, on the record. */
export type Decision =
  | {
      readonly kind: 'link';
      readonly case: string;
      readonly device: string;
      readonly use: string;
      readonly by: string;
      readonly why: string;
      /** When, in milliseconds since 1970. */
      readonly at: number;
    }
  | {
      readonly kind: 'unlink';
      readonly case: string;
      readonly device: string;
      readonly by: string;
      readonly why: string;
      readonly at: number;
    };

/** Everything the register knows of one person. */
export interface History {
  readonly uses: readonly Use[];
  readonly unlinked: readonly Unlinked[];
  readonly gaps: readonly Gap[];
}
