import type { Language } from '../../findings/languages.js';
import { grouped } from '../../record/grouped.js';
import type { CaseRecord } from '../../record/schema/record.js';
import { byHandled, rowsOf } from '../by-device.js';
import { partNamed } from '../parts.js';
import { partRole } from '../tally/parts.js';
import { playEvents } from '../tally/play.js';
import { inOrder, type Mark } from '../tally/state.js';
import {
  type DeviceDetails,
  type DeviceTally,
  isInside,
  isOpen,
  type TallyEntry,
  type TallyEvent,
} from '../types.js';
import { type WallClock, wallClock } from './clock.js';
import { barsOf, marksOf, type TimelineBar, type TimelineMark } from './marks.js';
import { type TimelineWords, timelineWords } from './words.js';

/** One device, or one part with a way of its own. */
export interface TimelineRow {
  readonly key: string;
  readonly device: string;
  readonly part?: string;
  readonly name: string;
  readonly bars: readonly TimelineBar[];
  readonly marks: readonly TimelineMark[];
  /** How the row ends: what is inside first. */
  readonly end: 'inside' | 'retained' | 'unaccounted' | 'out';
  /** `still inside, to come out later`; `removed 09:20`. */
  readonly words: string;
}

/** A case as a picture of times: what went in when, and what runs off the right edge. */
export interface Timeline {
  readonly title: string;
  readonly from: number;
  readonly to: number;
  readonly clock: WallClock;
  readonly rows: readonly TimelineRow[];
  /** In words, what is still inside; empty when nothing is. */
  readonly inside: readonly string[];
  /** What nobody accounts for: it may be inside. */
  readonly unaccounted: readonly string[];
  /** In words, what was never in. */
  readonly unused: readonly string[];
  /** Fixed words of its language. */
  readonly words: TimelineWords;
}

/**
 * Works out the timeline from the same events that the tally plays.
 */
export function timelineOf(
  record: CaseRecord,
  devices: ReadonlyMap<string, DeviceDetails>,
  tally: DeviceTally,
  language: Language = 'en-GB',
): Timeline {
  const play = playEvents(record, devices);
  const events = inOrder(record);
  const times = [...events.map(at => at.event.at), record.case.started, record.case.ended].flatMap(m =>
    m ? [m] : [],
  );
  const clock = wallClock(times);
  const words = timelineWords(language, clock);
  const from = Math.min(...times.map(m => m.epoch));
  const last = Math.max(...times.map(m => m.epoch));
  const called = (key: string) => words.text(devices.get(key)?.called ?? key);
  const marks = grouped(play.marks, mark => mark.device);
  const handled = byHandled(events);
  const rows = [...devices.values()].flatMap(device =>
    rowsFor(device, marks.get(device.key) ?? [], handled.get(device.key) ?? [], tally, words, called),
  );
  const starts = new Map(rows.filter(row => row.part === undefined).map(row => [row.device, startOf(row)]));
  const ordered = rows
    .map((row, index) => ({ row, index, start: starts.get(row.device) ?? startOf(row) }))
    .sort((a, b) => a.start - b.start || a.index - b.index)
    .map(({ row }) => row);
  const number = (entry: TallyEntry) => numbered(entry, words);
  const list = (keep: (entry: TallyEntry) => boolean, say: (entry: TallyEntry) => string) =>
    tally.entries.filter(entry => keep(entry) && !sharesFate(entry, tally)).map(say);
  return {
    title: words.say('title', { id: record.case.id }),
    from: times.length === 0 ? 0 : from,
    to: times.length === 0 ? 60_000 : Math.max(last, from + 60_000),
    clock,
    rows: ordered,
    inside: list(
      entry => isInside(entry.state),
      entry => `${number(entry)}, ${insideWords(entry, words)}`,
    ),
    unaccounted: list(entry => isOpen(entry.state), number),
    unused: list(
      entry => entry.state.startsWith('discarded unused'),
      entry => `${number(entry)} (${endWords(entry, words)})`,
    ),
    words,
  };
}

/** Parts come right after their device. */
function startOf(row: TimelineRow): number {
  return Math.min(...row.bars.map(bar => bar.from ?? 0), Number.MAX_SAFE_INTEGER);
}

/** @param marks of the device; `events` are those that name it */
function rowsFor(
  device: DeviceDetails,
  marks: readonly Mark[],
  events: readonly TallyEvent[],
  tally: DeviceTally,
  words: TimelineWords,
  called: (key: string) => string,
): TimelineRow[] {
  const entries = rowsOf(tally, device.key);
  const own = entries.filter(entry => entry.part === undefined);
  const bars = barsOf(
    device,
    marks.filter(mark => mark.part === undefined),
  );
  const lost = own.some(entry => isOpen(entry.state));
  if (bars.length === 0 && !lost) return [];
  const row: TimelineRow = {
    key: device.key,
    device: device.key,
    name: words.text(device.called),
    bars,
    marks: marksOf(device, events, words, called),
    ...endOf(
      own.filter(entry => !entry.state.startsWith('discarded unused')),
      words,
    ),
  };
  const parts = Object.entries(device.entry.parts ?? {}).flatMap(([key, part]): TimelineRow[] => {
    const rows = entries.filter(entry => entry.part === key);
    const inside = rows.some(
      entry =>
        (isInside(entry.state) || isOpen(entry.state)) && !own.some(whole => whole.state === entry.state),
    );
    const followed = partRole(part.kind) === 'thread' || partRole(part.kind) === 'fragment';
    const apart = rows.some(entry => entry.event && entry.state === 'removed intact');
    if (!inside && !(followed && apart)) return [];
    return [partRow(device, key, part.kind, bars, rows, marks, words)];
  });
  const drawn = new Set(parts.map(part => part.part));
  const marksLeft = row.marks.filter(mark => mark.kind !== 'part out' || !drawn.has(mark.part));
  return [{ ...row, marks: marksLeft }, ...parts];
}

function partRow(
  device: DeviceDetails,
  key: string,
  kind: string,
  bars: readonly TimelineBar[],
  rows: readonly TallyEntry[],
  marks: readonly Mark[],
  words: TimelineWords,
): TimelineRow {
  const end = endOf(rows, words);
  const first = bars[0];
  const broke =
    partRole(kind) === 'fragment' ? rows.find(entry => entry.state !== 'removed intact')?.event : undefined;
  const out = marks.filter(m => m.part === key && m.what === 'out').at(-1)?.at.event.at.epoch;
  const to = end.end === 'out' ? (out ?? bars.at(-1)?.to) : undefined;
  const from = broke ? broke.event.at.epoch : first?.from;
  const bar = { ...(from !== undefined && { from }), ...(to !== undefined && { to }), count: 1 };
  return {
    key: `${device.key}.${key}`,
    device: device.key,
    part: key,
    name: words.say('part', { part: partNamed(kind), device: words.text(device.called) }),
    bars: [bar],
    marks: [],
    ...end,
  };
}

function endOf(entries: readonly TallyEntry[], words: TimelineWords): Pick<TimelineRow, 'end' | 'words'> {
  const has = (state: TallyEntry['state']) => entries.some(entry => entry.state === state);
  const inside = has('in situ intended') || has('in situ temporary');
  const end = entries.some(entry => isOpen(entry.state))
    ? 'unaccounted'
    : has('retained unintended')
      ? 'retained'
      : inside
        ? 'inside'
        : 'out';
  const several = entries.length > 1;
  const said = entries.map(entry => `${several ? `${entry.count} ` : ''}${endWords(entry, words)}`);
  return { end, words: said.join('; ') };
}

/** How one row of the tally ends, for people. */
function endWords(entry: TallyEntry, words: TimelineWords): string {
  const at = entry.removed && words.clock(entry.removed);
  switch (entry.state) {
    case 'in situ intended':
    case 'in situ temporary':
    case 'retained unintended':
      return words.say('still', { how: insideWords(entry, words) });
    case 'unaccounted':
      return words.say('unaccounted');
    case 'missing':
      return words.say('notFound');
    case 'removed in pieces, complete':
      return words.say('pieces', { at });
    case 'removed in pieces, incomplete':
    case 'removed with a part missing':
      return words.say('missing', { at });
    case 'removed intact':
      return words.say('removed', { at });
    case 'discarded unused opened':
      return words.say('opened');
    case 'discarded unused unopened':
      return words.say('unopened');
  }
}

/** How what is inside is meant. */
function insideWords({ state }: TallyEntry, words: TimelineWords): string {
  if (state === 'in situ intended') return words.say('stays');
  return state === 'in situ temporary' ? words.say('later') : words.say('against');
}

const numbered = (entry: TallyEntry, words: TimelineWords) =>
  `${entry.count > 1 ? `${entry.count} × ` : ''}${words.text(entry.name)}`;

/** A part still on its device is where that is: it needs no words of its own. */
function sharesFate(entry: TallyEntry, tally: DeviceTally): boolean {
  if (entry.part === undefined) return false;
  return rowsOf(tally, entry.device).some(whole => whole.part === undefined && whole.state === entry.state);
}
