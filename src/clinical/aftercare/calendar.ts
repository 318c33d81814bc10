import ical, { escape as escaped, ICalEventTransparency } from 'ical-generator';
import { lexicon } from '../../findings/say.js';
import { type AftercareItem, criterionText } from './aftercare.js';
import { clockOf, type DueDate } from './due-date.js';
import { dayOf, turnOf } from './order.js';

/** What a calendar needs besides the items. Nothing is read from the clock, so that the same case gives the same file. */
export interface CalendarOptions {
  /** Title of the calendar: kind and number of the case, no name. */
  readonly title: string;
  /** What makes the event identifiers unique in the world: the site's namespace and the number of the case. */
  readonly caseId: string;
  /** When the record was signed (or the case ended): the time stamp of each event, milliseconds since 1970. */
  readonly stampedAt: number;
  /** Names of devices by key. */
  readonly deviceName: (key: string) => string;
  readonly caution: string;
}

/**
 * The dated aftercare items as iCalendar (RFC 5545), on the due date (else the latest, else the earliest), moved to a day
 * that the site works: an all-day event, or with a clock time one in universal time. What is done for a while lasts until
 * its end. Items without a day are left out: see `undated`. No patient name goes into a calendar.
 */
export function aftercareCalendar(items: readonly AftercareItem[], options: CalendarOptions): string {
  const calendar = ical({
    // The library escapes all texts but this one.
    name: escaped(options.title, false),
    prodId: { company: 'casetally', product: 'aftercare', language: 'EN' },
  });
  for (const item of items) {
    const span = spanOf(item);
    if (!span) continue;
    const device = item.device === undefined ? '' : ` (${options.deviceName(item.device)})`;
    calendar.createEvent({
      id: `${options.caseId}/${item.key}@casetally`,
      stamp: new Date(options.stampedAt),
      ...span,
      timezone: 'UTC',
      summary: `${item.what}${device}`,
      description: itemLines(item, options.caution).join('\n'),
      transparency: ICalEventTransparency.TRANSPARENT,
      ...(item.urgent && { priority: 1 }),
    });
  }
  // RFC 5545, section 3.1: every line ends with CRLF, the last one too.
  return `${calendar.toString()}\r\n`;
}

interface EventSpan {
  readonly start: Date;
  readonly end?: Date;
  readonly allDay: boolean;
}

/** From when to when an event lasts. A clock time stands only where both ends have one. */
function spanOf(item: AftercareItem): EventSpan | undefined {
  const day = dayOf(item);
  const time = turnOf(item)?.time;
  const until = item.until?.date;
  if (day === undefined) return undefined;
  if (time !== undefined && (until === undefined || clockOf(until))) {
    const start = new Date(time);
    const last = [until, item.latest?.date].find(date => date !== undefined && clockOf(date));
    const end = last === undefined ? start : new Date(last);
    return { start, ...(end > start && { end }), allDay: false };
  }
  // A day is a day in every zone: noon UTC never falls on another date when it is formatted in UTC.
  const noon = (date: string) => new Date(`${date}T12:00:00Z`);
  if (until === undefined || until.slice(0, 10) <= day) return { start: noon(day), allDay: true };
  const dayAfter = noon(until.slice(0, 10));
  dayAfter.setUTCDate(dayAfter.getUTCDate() + 1);
  return { start: noon(day), end: dayAfter, allDay: true };
}

const words = lexicon('en-GB');

/** `Thursday 6 June 2024`, `Friday 15 March 2024, 02:30`. */
export function dateWords(date: string): string {
  const moment = clockOf(date);
  return moment ? words.fullMoment(moment) : words.date(date);
}

/** All that an item says besides its title, a line each; ends with the caution. */
export function itemLines(item: AftercareItem, caution: string): string[] {
  const said = (word: string, text: string | undefined) => (text === undefined ? [] : [`${word}: ${text}`]);
  return [
    ...said('By', item.by),
    ...said('Earliest', dateText(item.earliest)),
    ...said('Due', dateText(item.due)),
    ...said('Latest', dateText(item.latest)),
    ...said('When', item.condition),
    ...said('Every', item.every),
    ...said('From', item.start && `${dateWords(item.start)}, after the case`),
    ...said('For', item.duration),
    ...said('Until', item.until && dateWords(item.until.date)),
    ...item.criteria.map(one => `If ${criterionText(one)}`),
    ...said('Call', item.call),
    ...said('If missed', item.ifMissed),
    ...said('Policy', item.policy),
    caution,
  ];
}

/** `Thursday 6 June 2024 (12 weeks)`, with the working day where the date is none. */
function dateText(due: DueDate | undefined): string | undefined {
  if (!due) return undefined;
  const counted = due.counted ? ` (${due.written})` : '';
  const working = due.workingDay === undefined ? '' : `, working day ${dateWords(due.workingDay)}`;
  return `${dateWords(due.date)}${counted}${working}`;
}
