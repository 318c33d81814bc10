import type { Finding } from '../../findings/finding.js';
import { type Message, message, type Param } from '../../findings/message.js';
import type { Coded } from '../../record/schema/fields.js';
import type { CaseEvent, CaseRecord } from '../../record/schema/record.js';
import type { Moment } from '../../record/time.js';
import { byMoved } from '../by-device.js';
import { partNamed } from '../parts.js';
import type { DeviceDetails, TallyEvent } from '../types.js';
import { type PartRole, partRole } from './parts.js';
import { entersByItself, type Verb } from './verbs.js';

/** The last event that took something out, and how. */
export interface Gone {
  readonly by: TallyEvent;
  readonly how: Message;
}

/** Where the pieces of a part are, while the events are played. */
export interface PartState {
  readonly key: string;
  readonly kind: string;
  readonly role: PartRole;
  readonly count: number;
  /** Separated from its device and inside. */
  inside: number;
  out: number;
  /** Of those inside: recorded as lost. */
  lost: number;
  /** Its device came out and nothing says whether it came too: the event that left it open. */
  open?: TallyEvent | undefined;
  /** Last event that separated some of it. */
  apartBy?: TallyEvent;
  lostBy?: TallyEvent;
  /** Absent for what was cut off on the table. */
  went?: Gone;
  /** It is out because its device took it along. */
  cameWith: boolean;
}

/** One device while the events are played. Numbers add up: never in = total − inside − out − discarded. */
export interface DeviceState {
  readonly key: string;
  readonly details: DeviceDetails;
  /** `drain (8.5 Fr drainage catheter, 35 cm)`. */
  readonly label: Param;
  readonly total: number;
  /** Bags, stopcocks: nothing of it needs a way out. */
  readonly outside: boolean;
  /** Verbs that put it in. */
  readonly entryVerbs: ReadonlySet<Verb>;
  /** How many go in at an event that does not say: all where only one event puts it in, else one. */
  readonly perEntry: number;
  readonly parts: ReadonlyMap<string, PartState>;
  inside: number;
  out: number;
  discarded: number;
  lost: number;
  /** Put in again while still inside: what came out later proves nothing. */
  doubt?: TallyEvent;
  inflated: boolean;
  everInflated: boolean;
  locked: boolean;
  /** Pieces it should be in, and how many of them came out with it. */
  pieces: number;
  piecesOut: number;
  broken?: TallyEvent;
  condition?: CaseEvent['state'];
  over?: string | undefined;
  through?: string | undefined;
  inserted?: Moment;
  /** Last event that put one in. */
  cameBy?: TallyEvent;
  went?: Gone;
  discardedBy?: TallyEvent;
  lostBy?: TallyEvent;
  site?: Coded;
}

/** One thing that happened to one device, for the timeline. */
export interface Mark {
  readonly device: string;
  readonly part?: string;
  /** `in` and `out` change where it is; `act` does not. */
  readonly what: 'in' | 'out' | 'act';
  readonly count: number;
  readonly at: TallyEvent;
}

/** The events being played. */
export interface Play {
  readonly record: CaseRecord;
  readonly states: ReadonlyMap<string, DeviceState>;
  readonly marks: Mark[];
  readonly findings: Finding[];
}

/** The device of a key that an event may name. */
export const stateOf = (play: Play, key: string | undefined): DeviceState | undefined =>
  key === undefined ? undefined : play.states.get(key);

/** The place that an event names, in words or as a target of the record. */
export function placeOf({ targets }: CaseRecord, { into, across, target }: CaseEvent): Coded | undefined {
  const key = across ?? target;
  return into ?? (key === undefined ? undefined : targets?.[key]?.what);
}

/** Events in the order they happened: by time, those of the same time in the order of the record. */
export function inOrder(record: CaseRecord): TallyEvent[] {
  return (record.events ?? [])
    .map((event, index): TallyEvent => ({ index, path: `events[${index}]`, event }))
    .sort((a, b) => a.event.at.epoch - b.event.at.epoch);
}

/** Every device as it is before the first event. */
export function startStates(
  devices: ReadonlyMap<string, DeviceDetails>,
  events: readonly TallyEvent[],
): Map<string, DeviceState> {
  const moving = byMoved(events);
  return new Map([...devices].map(([key, details]) => [key, startState(details, moving.get(key) ?? [])]));
}

/** @param moving events that name the device as their own or as what moved with it */
function startState(details: DeviceDetails, moving: readonly TallyEvent[]): DeviceState {
  const { key, entry, count } = details;
  const events = moving.filter(({ event }) => moves(event, key));
  const entryVerbs = entryVerbsOf(details, events);
  const entering = events.filter(({ event }) => entryVerbs.has(event.do));
  const parts = Object.entries(entry.parts ?? {}).map(([name, part]): [string, PartState] => [
    name,
    {
      key: name,
      kind: part.kind,
      role: partRole(part.kind),
      count: part.count ?? 1,
      inside: 0,
      out: 0,
      lost: 0,
      cameWith: false,
    },
  ]);
  return {
    key,
    details,
    label: message('name.label', { key, name: details.said }),
    total: count,
    outside: (details.outside ?? false) && entry.family === undefined && entering.length === 0,
    entryVerbs,
    perEntry: entering.length === 1 ? count : 1,
    parts: new Map(parts),
    inside: details.carried ? count : 0,
    out: 0,
    discarded: 0,
    lost: 0,
    inflated: details.carried && details.traits.has('balloon-held'),
    everInflated: false,
    locked: details.carried && isLocking(details),
    pieces: 1,
    piecesOut: 0,
    ...(entry.carried?.site && { site: entry.carried.site }),
  };
}

/** Held by a loop: by its kind, by its description, or by the thread among its parts. */
export const isLocking = ({ traits, entry }: DeviceDetails): boolean =>
  traits.has('locking') || Object.values(entry.parts ?? {}).some(({ kind }) => partRole(kind) === 'thread');

/** Whether an event moves the device, as its own or beside another. */
export const moves = (event: CaseEvent, key: string): boolean =>
  (event.device === key && event.part === undefined) || (event.with?.includes(key) ?? false);

/**
 * The verbs that put this device in. What is inserted and then deployed goes in once, so that deploying counts as
 * entry only where no insertion is recorded; detaching only where nothing else is.
 */
function entryVerbsOf({ family, carried }: DeviceDetails, events: readonly TallyEvent[]): Set<Verb> {
  const used = new Set(events.map(({ event }) => event.do));
  if (carried || inserting.some(verb => used.has(verb))) return new Set(inserting);
  const placing = (['deploy', 'inject', 'release', 'detach'] as const).find(
    verb => used.has(verb) && entersByItself(verb, family),
  );
  return new Set(placing ? [placing] : inserting);
}

const inserting: readonly Verb[] = ['puncture', 'insert', 'exchange'];

/** How many were never in the patient and are not accounted for otherwise. */
export function neverIn(state: DeviceState): number {
  return Math.max(0, state.total - state.inside - state.out - state.discarded);
}

/** `retention thread 'lock' of drain (8.5 Fr drainage catheter, 35 cm)`. */
export function partLabel(state: DeviceState, part: PartState): Message {
  return message('name.partLabel', { part: partNamed(part.kind), key: part.key, device: state.label });
}

/** Pieces of a cut or broken device that no event and no part speaks of. */
export function missingPieces(state: DeviceState): number {
  const own = Math.max(1, state.piecesOut);
  const apart = [...state.parts.values()]
    .filter(part => part.role !== 'thread' && part.role !== 'inner')
    .reduce((sum, part) => sum + (part.open ? part.count : part.inside + (part.cameWith ? 0 : part.out)), 0);
  return Math.max(0, state.pieces - own - apart);
}
