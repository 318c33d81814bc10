import type { CaseRecord } from '../../record/schema/record.js';
import { conditionsTold, toldBefore } from '../texts.js';

/** The days that a text names as `2026-04-18`. */
export const daysIn = (text: string): readonly string[] =>
  text.match(/\b(?:19|20)\d\d-[01]\d-[0-3]\d\b/g) ?? [];

/** A day that is to come: of a plan, not of what was there before. */
const ahead =
  /\b(?:plan\w*|book\w*|due|until|expect\w*|schedul\w*|restart\w*|appointment|to be|will|wants?|before|follow\w*|on the list|valid|next|re-?view\w*)\b/i;
/** A time of another day. */
const otherDay =
  /\b(?:yesterday|(?:day|night|evening) before|last night|on (?:mon|tues|wednes|thurs|fri|satur|sun)day|ago|(?:19|20)\d\d|previous|usual(?:ly)?|every|each|tomorrow|next)\b/i;
const clock = /\bat ([01]?\d|2[0-3])[:.]([0-5]\d)\b/g;
const leaves = /\b(?:home|discharge[ds]?)\b[^.;]*/i;

const HOUR = 3_600_000;

/** A day or a time that words tell, with what it stands for. */
interface ToldTime {
  readonly role: 'toldBefore' | 'home';
  readonly path: string;
  readonly local: string;
  readonly text: string;
}

/** Days and times in the words before the case that cannot be before it, and a way home that begins before its end. */
export function toldTimes(record: CaseRecord): ToldTime[] {
  const { started, ended, date } = record.case;
  const points: ToldTime[] = [];
  for (const { path, text } of [...toldBefore(record), ...conditionsTold(record)]) {
    if (path === 'before.imaging') continue;
    for (const clause of text.slice(0, 5000).split(/[;.]\s|;/)) {
      if (ahead.test(clause)) continue;
      for (const day of daysIn(clause)) points.push({ role: 'toldBefore', path, local: day, text: day });
      // `Fell at 23:15` before a case at eight was the evening before; within the case it cannot be.
      if (path.startsWith('indication') && started && ended && !otherDay.test(clause))
        for (const time of clocksIn(clause, date))
          if (time.local > local(started) && time.local <= local(ended))
            points.push({ role: 'toldBefore', path, ...time });
    }
  }
  const [way] = leaves.exec(record.outcome?.disposition ?? '') ?? [];
  if (way !== undefined && ended && !otherDay.test(way) && !/\bmorning\b/i.test(way))
    for (const time of clocksIn(way, ended.date)) {
      // Of a time that is much earlier the next day is meant.
      const gap = Date.parse(`${local(ended)}Z`) - Date.parse(`${time.local}Z`);
      if (gap > 0 && gap < 6 * HOUR) points.push({ role: 'home', path: 'outcome.disposition', ...time });
    }
  return points;
}

const local = ({ date, clock }: { readonly date: string; readonly clock: string }) =>
  `${date}T${clock.slice(0, 5)}`;

const clocksIn = (text: string, date: string): { local: string; text: string }[] =>
  [...text.matchAll(clock)].map(([, hours = '', minutes = '']) => {
    const time = `${hours.padStart(2, '0')}:${minutes}`;
    return { local: `${date}T${time}`, text: time };
  });
