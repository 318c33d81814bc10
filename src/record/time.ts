import { Temporal } from 'temporal-polyfill';
import { type Message, message } from '../findings/message.js';

/** A point in time as recorded: the written text and the full FHIR dateTime with seconds and offset. */
export interface Moment {
  readonly text: string;
  /** `2024-03-14T09:04:00+00:00`; seconds are `00` when none were written. */
  readonly iso: string;
  /** Milliseconds since 1970, for ordering. */
  readonly epoch: number;
  /** Local date in the case's zone, `YYYY-MM-DD`. */
  readonly date: string;
  /** Local wall time, `HH:MM` or `HH:MM:SS` as precise as written. */
  readonly clock: string;
}

/** A date that may be partial (`2024`, `2024-03`, `2024-03-14`) or a full moment. Partial dates stay partial. */
export interface When {
  readonly text: string;
  /** FHIR dateTime of the precision that was written. */
  readonly iso: string;
  readonly precision: 'year' | 'month' | 'day' | 'time';
  readonly moment?: Moment;
}

/** What a bare time is read against. */
export interface TimeContext {
  /** Date of the case, `YYYY-MM-DD`. */
  readonly date?: string | undefined;
  /** IANA zone of the case. */
  readonly timeZone?: string | undefined;
  /** When the case started, as written; decides which day a bare time around midnight belongs to. */
  readonly started?: string | undefined;
}

export type ReadTime<T> =
  | {
      readonly ok: true;
      readonly value: T;
      /** Days that a bare time was put off the date of the case: 1 or -1. */
      readonly moved?: number;
    }
  | {
      readonly ok: false;
      readonly why: Message;
      readonly code: 'bad' | 'gap' | 'twice' | 'no-zone' | 'no-date';
    };

const TIME =
  /^(?:(\d{4}-\d{2}-\d{2})[T ])?([01]\d|2[0-3]):([0-5]\d)(?::([0-5]\d))?(Z|[+-](?:0\d|1[0-4]):[0-5]\d)?$/;
const DATE = /^(\d{4})(?:-(\d{2})(?:-(\d{2}))?)?$/;

/** True for a time of the day, `09:04` or `09:04:30`. */
export const isClock = (text: string): boolean => /^(?:[01]\d|2[0-3]):[0-5]\d(?::[0-5]\d)?$/.test(text);

/** True when the text names a day that exists. */
export function isCalendarDate(text: string): boolean {
  try {
    return (
      /^\d{4}-\d{2}-\d{2}$/.test(text) &&
      Temporal.PlainDate.from(text, { overflow: 'reject' }).toString() === text
    );
  } catch {
    return false;
  }
}

/** Names that were found to be zones: asked for at every time of a record, and never more than the platform knows. */
const zones = new Set<string>();

/** True for an IANA zone name that the platform knows. */
export function isTimeZone(name: string): boolean {
  if (zones.has(name)) return true;
  if (!/^[A-Za-z]+(?:[/_+-][A-Za-z0-9_+-]+)*$/.test(name)) return false;
  try {
    Temporal.PlainDateTime.from('2000-01-01T00:00').toZonedDateTime(name);
  } catch {
    return false;
  }
  zones.add(name);
  return true;
}

/** Minutes before the start from which a bare time is of the next day, and after it from which it is of the day before. */
const NEXT_DAY = 12 * 60;
const DAY_BEFORE = 18 * 60;

const minutesOf = (hour: string, minute: string) => Number(hour) * 60 + Number(minute);

/**
 * A bare time belongs to the date of the case; when it is more than twelve hours before the start of the case, to the
 * next day; when it is more than eighteen hours after (which only a start before 06:00 leaves room for), to the day
 * before. The rule looks at no neighbour, so the order of lines in the file does not matter.
 */
function dayOf(
  context: TimeContext,
  hour: string,
  minute: string,
): { date: string; moved: number } | undefined {
  const start = context.started ? TIME.exec(context.started) : null;
  const date = start?.[1] ?? context.date;
  if (!date || !isCalendarDate(date)) return undefined;
  const after = start ? minutesOf(hour, minute) - minutesOf(start[2] ?? '0', start[3] ?? '0') : 0;
  const moved = after < -NEXT_DAY ? 1 : after > DAY_BEFORE ? -1 : 0;
  return { date: Temporal.PlainDate.from(date).add({ days: moved }).toString(), moved };
}

/** What was read against one case: its few times are asked for again and again. Bounded, since the texts are people's own. */
let lately: TimeContext = {};
const known = new Map<string, ReadTime<Moment>>();
const KNOWN_AT_MOST = 2_000;
const LONGEST_TIME = '2024-03-14T09:04:30+00:00'.length;

/**
 * Reads `09:04`, `09:04:30`, `2024-03-13T18:20`, `01:30+01:00`. Without an offset the zone of the case decides it;
 * a time that the clocks skipped, or showed twice, is refused and the two ways to write it are named.
 */
export function readMoment(text: string, context: TimeContext): ReadTime<Moment> {
  const { date, timeZone, started } = context;
  const same = lately.date === date && lately.timeZone === timeZone && lately.started === started;
  if (!same || known.size >= KNOWN_AT_MOST) known.clear();
  lately = { date, timeZone, started };
  const before = known.get(text);
  if (before) return before;
  const read = readAnew(text, context);
  if (text.length <= LONGEST_TIME) known.set(text, read);
  return read;
}

function readAnew(text: string, context: TimeContext): ReadTime<Moment> {
  const trimmed = text.trim();
  const parts = TIME.exec(trimmed);
  if (!parts)
    return {
      ok: false,
      code: 'bad',
      why: message('reading.noTime', { text }),
    };
  const [, writtenDate, hour = '', minute = '', second, offset] = parts;
  const day = writtenDate ? { date: writtenDate, moved: 0 } : dayOf(context, hour, minute);
  if (!day) return { ok: false, code: 'no-date', why: message('reading.noDate', { text }) };
  if (!isCalendarDate(day.date))
    return { ok: false, code: 'bad', why: message('reading.noDay', { date: day.date }) };
  const clock = second === undefined ? `${hour}:${minute}` : `${hour}:${minute}:${second}`;
  const local = `${day.date}T${hour}:${minute}:${second ?? '00'}`;
  const made = (iso: string, epoch: number): ReadTime<Moment> => ({
    ok: true,
    value: { text: trimmed, iso, epoch, date: day.date, clock },
    ...(day.moved !== 0 && { moved: day.moved }),
  });
  if (offset !== undefined) {
    const iso = `${local}${offset}`;
    return made(iso, Temporal.Instant.from(iso).epochMilliseconds);
  }
  if (!context.timeZone || !isTimeZone(context.timeZone))
    return { ok: false, code: 'no-zone', why: message('reading.noZone', { text }) };
  return inZone(Temporal.PlainDateTime.from(local), context.timeZone, text, made);
}

function inZone(
  local: Temporal.PlainDateTime,
  zone: string,
  text: string,
  made: (iso: string, epoch: number) => ReadTime<Moment>,
): ReadTime<Moment> {
  const earlier = local.toZonedDateTime(zone, { disambiguation: 'earlier' });
  const later = local.toZonedDateTime(zone, { disambiguation: 'later' });
  if (earlier.epochMilliseconds === later.epochMilliseconds)
    return made(`${local.toString({ smallestUnit: 'second' })}${earlier.offset}`, earlier.epochMilliseconds);
  const skipped = !earlier.toPlainDateTime().equals(local);
  return skipped
    ? { ok: false, code: 'gap', why: message('reading.skipped', { text, zone }) }
    : {
        ok: false,
        code: 'twice',
        why: message('reading.twice', {
          ...{ text, zone },
          one: `${text}${earlier.offset}`,
          other: `${text}${later.offset}`,
        }),
      };
}

/** Reads a date of any precision, or a moment. */
export function readWhen(text: string, context: TimeContext): ReadTime<When> {
  const trimmed = text.trim();
  const date = DATE.exec(trimmed);
  if (date) {
    const [, , month, day] = date;
    const real = day ? isCalendarDate(trimmed) : month ? isCalendarDate(`${trimmed}-01`) : true;
    if (!real) return { ok: false, code: 'bad', why: message('reading.noSuchDate', { text }) };
    return {
      ok: true,
      value: { text: trimmed, iso: trimmed, precision: day ? 'day' : month ? 'month' : 'year' },
    };
  }
  const moment = readMoment(trimmed, context);
  if (!moment.ok)
    return moment.code === 'bad'
      ? {
          ok: false,
          code: 'bad',
          why: message('reading.noWhen', { text }),
        }
      : moment;
  return {
    ...moment,
    value: { text: trimmed, iso: moment.value.iso, precision: 'time', moment: moment.value },
  };
}
