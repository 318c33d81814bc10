import type { CaseRecord } from '../../record/schema/record.js';

/** Version of the report, and those that it follows. */
export interface ReportVersion {
  readonly number: string;
  /** Versions that this one replaces or appends, oldest first; empty for a first report. */
  readonly follows: readonly string[];
}

/**
 * The version of a report: as written, or one more than the version it follows when that is a number; 1 for a first.
 * @param earlier versions that are at hand, oldest first: an addendum follows the last of them, any other all
 */
export function reportVersion(record: CaseRecord, earlier: readonly string[] = []): ReportVersion {
  const { version, change, status } = record.report;
  const latest = earlier.at(-1);
  const of = change?.of ?? latest;
  const next = of !== undefined && /^\d+$/.test(of) ? Number(of) + 1 : undefined;
  const number = version ?? next ?? (change ? 2 : 1);
  if (latest !== undefined)
    return { number: String(number), follows: status === 'appended' ? [latest] : earlier };
  const previous = of ?? (number > 1 ? String(number - 1) : undefined);
  return { number: String(number), follows: previous === undefined ? [] : [previous] };
}
