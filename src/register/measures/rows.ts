import type { CaseFigures } from '../facts.js';
import type { UsePlan, UseState } from '../use.js';

/** A use that was placed in the period by a case that is held. */
export interface UseRow {
  readonly kind: string;
  readonly family: string;
  readonly retrievable: boolean;
  readonly state: UseState;
  /** `YYYY-MM-DD`. */
  readonly placed: string;
  /** As precise as it is known. */
  readonly ended?: string;
  /** Day of death, or as much of it as is known; '' where the day is not said. */
  readonly died?: string;
}

/** A plan whose last day lies in the period. */
export interface LastDayRow {
  readonly kind: string;
  readonly state: UseState;
  /** `YYYY-MM-DD`: the last day allowed, else the day named. */
  readonly last: string;
  readonly closed?: Pick<NonNullable<UsePlan['closed']>, 'how' | 'date'>;
}

/** What measures are made of. */
export interface MeasureRows {
  readonly uses: readonly UseRow[];
  readonly plans: readonly LastDayRow[];
  /** Of the newest version of each case of the period that was not withdrawn. */
  readonly figures: readonly CaseFigures[];
  /** Cases of the period whose figures are not held. */
  readonly withoutFigures: number;
  /** Uses of any time that no case held has placed, or not on a day that is known. */
  readonly notPlacedHere: number;
}
