import type { CaseRecord } from '../../record/schema/record.js';
import type { Moment, When } from '../../record/time.js';
import type { Lexicon } from '../words/lexicon.js';

const OFFSET = /(Z|[+-]\d{2}:\d{2})$/;

function offsetOf(moment: Moment): string {
  const offset = OFFSET.exec(moment.iso)?.[1] ?? '';
  return offset === 'Z' ? '+00:00' : offset;
}

/** The offset that most of the case ran under: that of its start, else of the first thing with a time. */
function caseOffset(record: CaseRecord): string | undefined {
  const first = record.case.started ?? record.events?.[0]?.at ?? record.case.ended ?? record.report.signedAt;
  return first && offsetOf(first);
}

/**
 * Prints dates and times. A partial date stays partial; a time on the day of the case is printed without the
 * date, any other with it; an offset is printed wherever it differs from that of the case.
 */
export function timePrinter(record: CaseRecord, words: Lexicon) {
  const base = caseOffset(record);
  const style = { timeZone: 'UTC', calendar: 'gregory', numberingSystem: 'latn' } as const;
  const day = new Intl.DateTimeFormat(words.language, {
    ...style,
    day: 'numeric',
    month: 'long',
    year: 'numeric',
  });
  const month = new Intl.DateTimeFormat(words.language, { ...style, month: 'long', year: 'numeric' });

  /** A FHIR date of any precision, or the date part of a dateTime. */
  const date = (iso: string): string => {
    const parts = /^(\d{4})(?:-(\d{2})(?:-(\d{2}))?)?/.exec(iso);
    if (!parts) return iso;
    const [, y = '', m, d] = parts;
    // Calendar numbers only: the instant is built and read back in UTC, so no zone can move the day.
    const at = Date.UTC(Number(y), Number(m ?? '1') - 1, Number(d ?? '1'));
    return m === undefined ? y : d === undefined ? month.format(at) : day.format(at);
  };

  const moment = (m: Moment): string => {
    const time = m.date === record.case.date ? m.clock : full(m);
    return zoned(m, time);
  };
  /** With the date, whatever the day. */
  const fullMoment = (m: Moment): string => zoned(m, full(m));
  const full = (m: Moment) => words.say('date.at', { date: date(m.date), clock: m.clock });
  const zoned = (m: Moment, time: string) =>
    offsetOf(m) === base ? time : words.say('date.offset', { time, offset: offsetOf(m) });

  return {
    date,
    moment,
    fullMoment,
    when: (w: When): string => (w.moment ? fullMoment(w.moment) : date(w.iso)),
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
