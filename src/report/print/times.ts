import { type Lexicon, offsetOf } from '../../findings/say.js';
import type { CaseRecord } from '../../record/schema/record.js';
import type { Moment } from '../../record/time.js';

/** The offset that most of the case ran under: that of its start, else of the first thing with a time. */
export function caseOffset(record: CaseRecord): string | undefined {
  const first = record.case.started ?? record.events?.[0]?.at ?? record.case.ended ?? record.report.signedAt;
  return first && offsetOf(first);
}

/** Times of one case: on its day they are printed without the date. */
export function timePrinter(record: CaseRecord, words: Lexicon) {
  const base = caseOffset(record);
  return {
    moment: (m: Moment): string => {
      if (m.date !== record.case.date) return words.fullMoment(m);
      const offset = offsetOf(m);
      return offset === base ? m.clock : words.say('date.offset', { time: m.clock, offset });
    },
    /** What zone the times of the report are in; undefined when the record has no time at all. */
    zone: (): string | undefined => {
      if (base === undefined) return undefined;
      const zone = record.case.timeZone;
      return zone === undefined
        ? words.say('times.offset', { offset: base })
        : words.say('times.zone', { zone, offset: base });
    },
  };
}
