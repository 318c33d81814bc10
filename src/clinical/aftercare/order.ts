import { clockOf, type DueDate } from './due-date.js';
import type { Plan } from './span.js';

/** When an item comes up: its local day, or month or year, and the clock time where it has one. */
export interface Turn {
  /** FHIR date, partial where the item's is. */
  readonly day: string;
  /** FHIR dateTime with offset. */
  readonly time?: string;
}

/**
 * When an item is due (else its latest, else its earliest; the first of them that is given to the day), or from when it
 * is done again and again.
 */
export function turnOf({ due, latest, earliest, start }: Plan): Turn | undefined {
  const given = [due, latest, earliest].map(shown).filter(date => date !== undefined);
  const date = given.find(one => one.length >= 10) ?? given[0] ?? start;
  if (date === undefined) return undefined;
  return clockOf(date) ? { day: date.slice(0, 10), time: date } : { day: date };
}

const shown = (due: DueDate | undefined) => due && (due.workingDay ?? due.date);

/** The full date that an item is put under: on a working day of the site. */
export function dayOf(item: Plan): string | undefined {
  const { day } = turnOf(item) ?? {};
  return day?.length === 10 ? day : undefined;
}

/** Items that cannot be in a calendar since they hang on a condition or on a date that is not given to the day. */
export function undated<T extends Plan>(items: readonly T[]): T[] {
  return items.filter(item => dayOf(item) === undefined);
}

interface Ranked extends Plan {
  readonly urgent: boolean;
  readonly condition?: string;
}

/**
 * The order of every list of aftercare: urgent items first; then by when they come up, checks that begin at once at the
 * end of the case, those with a clock time before those of the same day without, days before their month; then items with
 * no time at all, and last those that wait for a condition. Items alike stay as recorded (`Array.sort` is stable).
 */
export function byUrgency(a: Ranked, b: Ranked): number {
  const [one, other] = [rank(a), rank(b)];
  for (const [place, mine] of one.entries()) {
    const theirs = other[place] ?? '';
    if (mine !== theirs) return mine < theirs ? -1 : 1;
  }
  return 0;
}

function rank(item: Ranked): readonly (string | number)[] {
  const turn = turnOf(item);
  const group = turn ? 0 : item.condition === undefined ? 1 : 2;
  // A tilde comes after every digit and hyphen: a month comes after its days.
  const day = turn === undefined ? '' : turn.day.padEnd(10, '~');
  return [item.urgent ? 0 : 1, group, day, turn?.time === undefined ? Infinity : Date.parse(turn.time)];
}
