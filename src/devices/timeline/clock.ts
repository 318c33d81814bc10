import type { Moment } from '../../record/time.js';

/** Reads instants as the clock on the wall showed them, over changes of offset and over midnight. */
export interface WallClock {
  /** `09:04`. */
  time(epoch: number): string;
  /** `2024-03-14`. */
  date(epoch: number): string;
  /** `UTC-05:00`. */
  offset(epoch: number): string;
  /** True where the clocks changed during the case, so that a time may come twice. */
  readonly changed: boolean;
}

const MINUTE = 60_000;

/** The wall clock of a case, from the moments it recorded: between two, the earlier one's offset holds. */
export function wallClock(moments: readonly Moment[]): WallClock {
  const known = moments
    .map(moment => ({ epoch: moment.epoch, offset: offsetOf(moment.iso) }))
    .sort((a, b) => a.epoch - b.epoch);
  const offsetAt = (epoch: number) =>
    (known.filter(one => one.epoch <= epoch).at(-1) ?? known[0])?.offset ?? 0;
  const local = (epoch: number) => new Date(epoch + offsetAt(epoch)).toISOString();
  return {
    time: epoch => local(epoch).slice(11, 16),
    date: epoch => local(epoch).slice(0, 10),
    offset: epoch => offsetName(offsetAt(epoch)),
    changed: new Set(known.map(({ offset }) => offset)).size > 1,
  };
}

/** `UTC-05:00` of an offset in milliseconds. */
function offsetName(offset: number): string {
  const clock = new Date(Math.abs(offset)).toISOString().slice(11, 16);
  return `UTC${offset < 0 ? '-' : '+'}${clock}`;
}

function offsetOf(iso: string): number {
  const parts = /([+-])(\d{2}):(\d{2})$/.exec(iso);
  if (!parts) return 0;
  const minutes = Number(parts[2]) * 60 + Number(parts[3]);
  return (parts[1] === '-' ? -minutes : minutes) * MINUTE;
}

const STEPS = [1, 2, 5, 10, 15, 30, 60, 120, 180, 360, 720, 1440].map(minutes => minutes * MINUTE);

/** Instants at which the axis is labelled: whole steps of time, at most `most` of them. */
export function ticks(from: number, to: number, most: number): number[] {
  const step = STEPS.find(size => (to - from) / size <= most) ?? Math.ceil((to - from) / most);
  const first = Math.ceil(from / step) * step;
  const found: number[] = [];
  for (let at = first; at <= to; at += step) found.push(at);
  return found;
}
