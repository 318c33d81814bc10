import type { CaseRecord } from '../../record/schema/record.js';

/** Version of the report, and the one that it follows. */
export interface ReportVersion {
  readonly number: string;
  readonly previous?: string;
}

/** The version of a report: 1 when none is written, one more than the version it follows when that is a number. */
export function reportVersion(record: CaseRecord): ReportVersion {
  const { version, change } = record.report;
  const of = change?.of;
  const follows = of !== undefined && /^\d+$/.test(of) ? Number(of) + 1 : undefined;
  const number = version ?? follows ?? (change ? 2 : 1);
  const previous = of ?? (number > 1 ? String(number - 1) : undefined);
  return { number: String(number), ...(previous !== undefined && { previous }) };
}
