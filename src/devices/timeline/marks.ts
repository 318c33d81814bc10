import { partNamed } from '../parts.js';
import type { Mark } from '../tally/state.js';
import type { DeviceDetails, TallyEvent } from '../types.js';
import type { TimelineWords } from './words.js';

/** A stretch of time that a device, or a part of one, was in the patient. */
export interface TimelineBar {
  /** Milliseconds since 1970; absent when it was in before the case. */
  readonly from?: number;
  /** Absent when it is, or may be, still inside. */
  readonly to?: number;
  /** Most that were in at once. */
  readonly count: number;
}

/** A point (or stretch) on a bar. */
export interface TimelineMark {
  readonly kind: 'exchange' | 'inflation' | 'placed' | 'broken' | 'part out' | 'lost';
  readonly from: number;
  /** End of an inflation. */
  readonly to?: number;
  /** `inflated to 10 atm`, `exchanged for drain`. */
  readonly words: string;
  /** Row that an exchange leads to. */
  readonly partner?: string;
  /** Part that came out. */
  readonly part?: string;
}

/** When a device was in, from the marks of the tally. */
export function barsOf(device: DeviceDetails, marks: readonly Mark[]): TimelineBar[] {
  const bars: TimelineBar[] = [];
  let inside = device.carried ? device.count : 0;
  let open: { from?: number; count: number } | undefined = inside > 0 ? { count: inside } : undefined;
  for (const { what, count, at } of marks) {
    const time = at.event.at.epoch;
    if (what === 'in') {
      inside += count;
      if (inside > 0) open = { ...(open ?? { from: time }), count: Math.max(open?.count ?? 0, inside) };
    }
    if (what !== 'out') continue;
    inside = Math.max(0, inside - count);
    if (inside > 0 || !open) continue;
    bars.push({ ...open, to: time });
    open = undefined;
  }
  if (open) bars.push(open);
  return bars;
}

/** What happened to a device while it was in. */
export function marksOf(
  device: DeviceDetails,
  events: readonly TallyEvent[],
  words: TimelineWords,
  called: (key: string) => string,
): TimelineMark[] {
  const { key } = device;
  const part = (name: string | undefined) =>
    name === undefined ? undefined : words.text(partNamed(device.entry.parts?.[name]?.kind ?? name));
  const marks: TimelineMark[] = [];
  for (const [place, { event }] of events.entries()) {
    const from = event.at.epoch;
    if (event.replaces === key)
      marks.push({
        kind: 'exchange',
        from,
        words: words.say('exchanged', { device: event.device && called(event.device) }),
        partner: event.device ?? '',
      });
    if (event.device !== key) continue;
    if (event.do === 'inflate') {
      const to = inflatedUntil(events.slice(place), key);
      const inflated = event.pressure
        ? words.say('inflatedTo', { pressure: { quantity: event.pressure } })
        : words.say('inflated');
      marks.push({ kind: 'inflation', from, ...(to !== undefined && { to }), words: inflated });
    }
    if (event.part === undefined && (event.do === 'deploy' || event.do === 'detach' || event.do === 'inject'))
      if (event.do !== 'inject' || device.family === 'embolic')
        marks.push({ kind: 'placed', from, words: placedWords(event, words) });
    if (event.do === 'cut' || event.do === 'fracture')
      marks.push({
        kind: 'broken',
        from,
        words: words.say(event.do === 'cut' ? 'cut' : 'broken', { part: part(event.part) }),
      });
    if (event.do === 'lose')
      marks.push({ kind: 'lost', from, words: words.say('gone', { part: part(event.part) }) });
    if (event.part !== undefined && (event.do === 'remove' || event.do === 'retrieve'))
      marks.push({
        kind: 'part out',
        from,
        words: words.say('out', { part: part(event.part) }),
        part: event.part,
      });
  }
  return marks;
}

const placedWords = ({ do: verb, count }: TallyEvent['event'], words: TimelineWords): string => {
  const done =
    verb === 'deploy'
      ? words.say('deployed')
      : verb === 'detach'
        ? words.say('detached')
        : words.say('injected');
  return count === undefined ? done : words.say('counted', { n: String(count), done });
};

/** Until it is deflated; else for as long as the event says. */
function inflatedUntil(rest: readonly TallyEvent[], key: string): number | undefined {
  const [first, ...later] = rest;
  const next = later.find(
    ({ event }) => event.device === key && (event.do === 'deflate' || event.do === 'inflate'),
  );
  if (next?.event.do === 'deflate') return next.event.at.epoch;
  const { duration, at } = first?.event ?? {};
  const minutes =
    duration?.code === 's'
      ? Number(duration.value) / 60
      : duration?.code === 'min'
        ? Number(duration.value)
        : NaN;
  return at && Number.isFinite(minutes) ? at.epoch + minutes * 60_000 : undefined;
}
