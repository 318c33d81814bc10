import type { Period } from 'fhir/r4.js';
import type { CaseRecord } from '../record/schema/record.js';
import type { Moment } from '../record/time.js';

/** When the case was, as far as it is recorded. */
export interface CaseTimes {
  readonly start?: string;
  readonly end?: string;
  /** FHIR dateTime of the report: signature, change or end of the case; the day alone when no time is known. */
  readonly date: string;
  /** The same as a FHIR instant. */
  readonly timestamp: string;
}

/** Works out the times of a case from what is written in it; nothing is taken from a clock. */
export function caseTimes(record: CaseRecord): CaseTimes {
  const happened = (record.events ?? []).map(event => event.at);
  const start = record.case.started ?? edge(happened, -1);
  const end = record.case.ended ?? edge(happened, 1);
  const { signedAt, change } = record.report;
  const reported =
    edge(
      [signedAt, change?.at].filter(moment => moment !== undefined),
      1,
    ) ??
    end ??
    start;
  return {
    ...(start && { start: start.iso }),
    ...(end && { end: end.iso }),
    date: reported?.iso ?? record.case.date,
    // An instant needs a time; a case without any is put at the first moment of its day, universal time.
    timestamp: reported?.iso ?? `${record.case.date}T00:00:00Z`,
  };
}

function edge(moments: readonly Moment[], sign: 1 | -1): Moment | undefined {
  return moments.reduce<Moment | undefined>(
    (best, moment) => (best && (moment.epoch - best.epoch) * sign <= 0 ? best : moment),
    undefined,
  );
}

/** performed[x] of a procedure: the span, or the day when no time is known. */
export function performed(
  times: CaseTimes,
  day: string,
): { performedPeriod: Period } | { performedDateTime: string } {
  return times.start || times.end
    ? { performedPeriod: { start: times.start, end: times.end } }
    : { performedDateTime: day };
}
