import type { Finding, FindingRow } from '../../findings/finding.js';
import { stops } from '../../findings/finding.js';

/** A code with the cases that have it. */
export interface CodeRow {
  readonly code: string;
  readonly severity: Finding['severity'];
  /** How many cases have it. */
  readonly cases: number;
  /** How many of them are set aside. */
  readonly setAside: number;
}

/** What is counted of a finding. */
export type Counted = Pick<Finding | FindingRow, 'code' | 'severity'>;

const RANK = ['fatal', 'error', 'warning', 'information'];

/** Counts what came of many cases; of a finding its code alone is kept. */
export class BulkTally {
  done = 0;
  setAside = 0;
  /** Set aside because they cannot be read as cases at all. */
  unreadable = 0;
  /** Done in an earlier run. */
  before = 0;
  /** The same bytes came in this run before. */
  repeated = 0;
  passedOver = 0;
  readonly #codes = new Map<string, { severity: Finding['severity']; cases: number; setAside: number }>();

  /** One case with all that there is to say of it. */
  case(findings: readonly Counted[], isSetAside: boolean): void {
    if (isSetAside) this.setAside += 1;
    else this.done += 1;
    for (const [code, severity] of new Map(findings.map(f => [f.code, f.severity]))) {
      const row = this.#codes.get(code) ?? { severity, cases: 0, setAside: 0 };
      // The same code may weigh less in another case.
      if (stops({ severity })) row.severity = severity;
      row.cases += 1;
      if (isSetAside) row.setAside += 1;
      this.#codes.set(code, row);
    }
  }

  /** The worst first, and of those the most frequent. */
  rows(): CodeRow[] {
    return [...this.#codes]
      .map(([code, row]) => ({ code, ...row }))
      .sort(
        (a, b) =>
          RANK.indexOf(a.severity) - RANK.indexOf(b.severity) ||
          b.setAside - a.setAside ||
          b.cases - a.cases ||
          (a.code < b.code ? -1 : 1),
      );
  }
}
