import ical, { ICalEventTransparency } from 'ical-generator';
import { type AftercareItem, criterionText, dayOf } from './aftercare.js';
import type { DueDate } from './due-date.js';

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
 * The dated aftercare items as iCalendar (RFC 5545), an all-day event each, on the due date (else the latest, else the
 * earliest), moved to a day that the site works. Items without a day are left out: see `undated`. No patient name goes
 * into a calendar.
 */
export function aftercareCalendar(items: readonly AftercareItem[], options: CalendarOptions): string {
  const calendar = ical({
    name: options.title,
    prodId: { company: 'casetally', product: 'aftercare', language: 'EN' },
  });
  for (const item of items) {
    const day = dayOf(item);
    if (!day) continue;
    const device = item.device === undefined ? '' : ` (${options.deviceName(item.device)})`;
    calendar.createEvent({
      id: `${options.caseId}/${item.key}@casetally`,
      stamp: new Date(options.stampedAt),
      // A day is a day in every zone: noon UTC never falls on another date when it is formatted in UTC.
      start: new Date(`${day}T12:00:00Z`),
      timezone: 'UTC',
      allDay: true,
      summary: `${item.what}${device}`,
      description: itemLines(item, options.caution).join('\n'),
      transparency: ICalEventTransparency.TRANSPARENT,
      ...(item.urgent && { priority: 1 }),
    });
  }
  return calendar.toString();
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
    ...said('For', item.duration),
    ...item.criteria.map(one => `If ${criterionText(one)}`),
    ...said('Call', item.call),
    ...said('If missed', item.ifMissed),
    ...said('Policy', item.policy),
    caution,
  ];
}

/** `2024-06-06 (12 weeks)`, with the working day where the date is none. */
export function dateText(due: DueDate | undefined): string | undefined {
  if (!due) return undefined;
  const counted = due.counted ? ` (${due.written})` : '';
  const working = due.workingDay === undefined ? '' : `, working day ${due.workingDay}`;
  return `${due.date}${counted}${working}`;
}
