import { type ComplicationRow, complications, type DoseRow, dose, type ReferenceLevel } from './cases.js';
import { type DwellRow, dwell, type RetrievalRow, retrieval } from './dwell.js';
import { type OverdueRow, overdueShares } from './overdue.js';
import { largeEnough } from './row.js';
import type { MeasureRows } from './rows.js';

/** What is measured. Days are `YYYY-MM-DD`, both within the period. */
export interface MeasureOptions {
  readonly from: string;
  readonly to: string;
  /** Counts from 1 to below this are not shown; below 3 all are. */
  readonly k: number;
  /** Days within which filters are asked for. */
  readonly days: readonly number[];
  readonly levelOf: (kind: string) => ReferenceLevel | undefined;
}

/** Figures of a site over a period. No person who was treated, or who treated, is in them. */
export interface Measures {
  readonly dwell: readonly DwellRow[];
  readonly retrieval: readonly RetrievalRow[];
  readonly complications: readonly ComplicationRow[];
  readonly overdue: readonly OverdueRow[];
  readonly dose: readonly DoseRow[];
  /** Cases of the period whose figures the register does not hold until it is rebuilt; undefined where few. */
  readonly withoutFigures: number | undefined;
  /** Uses that no case held has placed on a known day, which dwell and retrieval leave out; undefined where few. */
  readonly notPlacedHere: number | undefined;
}

export function measures(rows: MeasureRows, { to, k, days, levelOf }: MeasureOptions): Measures {
  return {
    dwell: dwell(rows.uses, to, k),
    retrieval: retrieval(rows.uses, to, days, k),
    complications: complications(rows.figures, k),
    overdue: overdueShares(rows.plans, k),
    dose: dose(rows.figures, levelOf, k),
    withoutFigures: largeEnough(rows.withoutFigures, k),
    notPlacedHere: largeEnough(rows.notPlacedHere, k),
  };
}
