import type { DeviceState, PartState, Play } from '../devices/tally/state.js';
import { neverIn } from '../devices/tally/state.js';
import { entersByItself, type Verb } from '../devices/tally/verbs.js';
import type { DeviceFamily } from '../devices/types.js';
import type { CaseEvent } from '../record/schema/record.js';
import { fieldsOf } from './fields.js';
import { keysOf, type Ways, waysOf } from './ways.js';

/** Something that can be done with a device, or a part of one, as things stand. */
export interface Offer extends Ways {
  readonly do: Verb;
  readonly device: string;
  readonly part?: string;
  /** Devices whose place it may take, by key; the one that moved last comes first. */
  readonly replaces?: readonly string[];
  /** Devices that may move together with it, by key; of them any number. */
  readonly with?: readonly string[];
  /** The most that it can be done with, for what is used by number. */
  readonly most?: number;
  /** What else may be said of it, in the order in which it is asked. */
  readonly fields: readonly (keyof CaseEvent)[];
}

/** What is done with a device that is in the patient, most usual first (common practice, no source). */
const inside: Readonly<Record<DeviceFamily, readonly Verb[]>> = {
  needle: ['remove', 'inject', 'aspirate', 'sample', 'advance', 'withdraw', 'ablate'],
  guidewire: ['remove', 'advance', 'cross', 'withdraw'],
  catheter: [
    'inject',
    'remove',
    'advance',
    'cross',
    'withdraw',
    'aspirate',
    'flush',
    'measure',
    'sample',
    'set',
  ],
  sheath: ['remove', 'inject', 'flush', 'aspirate', 'advance', 'withdraw'],
  dilator: ['remove'],
  balloon: ['inflate', 'deflate', 'remove', 'reposition'],
  stent: ['deploy', 'remove', 'reposition'],
  drain: ['lock', 'unlock', 'set', 'aspirate', 'flush', 'inject', 'remove', 'reposition'],
  filter: ['deploy', 'capture', 'retrieve', 'reposition'],
  embolic: ['detach', 'deploy', 'remove'],
  retrieval: ['capture', 'remove', 'advance', 'withdraw'],
  closure: ['deploy', 'remove'],
  anchor: ['deploy', 'remove', 'cut'],
  tube: ['inflate', 'deflate', 'set', 'flush', 'aspirate', 'remove', 'reposition'],
  accessory: ['remove', 'advance', 'withdraw', 'measure'],
};

/** What can happen to anything that is in the patient, and seldom does. */
const seldom: readonly Verb[] = ['cut', 'fracture', 'lose'];

/** What goes in more than once. */
const again: ReadonlySet<DeviceFamily> = new Set([
  'needle',
  'guidewire',
  'catheter',
  'sheath',
  'dilator',
  'balloon',
  'retrieval',
  'accessory',
]);

/** What takes the place of what, over the wire or through the tract. */
const kinOf: Readonly<Partial<Record<DeviceFamily, string>>> = {
  catheter: 'tube',
  drain: 'tube',
  tube: 'tube',
  stent: 'stent',
  sheath: 'sheath',
  guidewire: 'guidewire',
};

/** What can be done with one device: with what of it is outside, with what is inside, and with parts that went their own way. */
export interface Offers {
  readonly outside: readonly Offer[];
  readonly inside: readonly Offer[];
  readonly apart: readonly Offer[];
}

/** The devices that others are offered with, as things stand. */
export interface Around {
  /** All of them, by key. */
  readonly states: ReadonlyMap<string, DeviceState>;
  /** Inside, the one that moved last first. */
  readonly inside: readonly DeviceState[];
  /** Inside, and free to come out with another. */
  readonly leaving: readonly DeviceState[];
  /** Outside, and such as go in with another: a wire in its catheter. */
  readonly entering: readonly DeviceState[];
}

export function aroundOf({ states }: Play): Around {
  const all = [...states.values()];
  const moved = ({ cameBy, went }: DeviceState) => Math.max(cameBy?.index ?? -1, went?.by.index ?? -1);
  const inside = all.filter(state => state.inside > 0).sort((a, b) => moved(b) - moved(a));
  // How many of those that are used by number came with it could not be said.
  const single = (state: DeviceState) => state.total === 1 && !state.outside;
  return {
    states,
    inside,
    leaving: inside.filter(state => single(state) && isPossible(state, 'remove')),
    entering: all.filter(state => single(state) && again.has(state.details.family) && mayEnter(state)),
  };
}

/**
 * What can be done with a device as things stand: what is outside can go in, what is inside can be used, changed or come
 * out. Nothing is offered that the tally would not follow.
 * @param around from `aroundOf`
 */
export function offersOf(around: Around, state: DeviceState): Offers {
  if (state.outside) return { outside: [], inside: [], apart: [] };
  const { attached, apart } = partOffers(around, state);
  return {
    outside: outsideOffers(around, state),
    inside: [...insideOffers(around, state), ...attached],
    apart,
  };
}

function offer(around: Around, state: DeviceState, verb: Verb, over: Partial<Offer> = {}): Offer {
  return {
    do: verb,
    device: state.key,
    ...(runs.has(verb) && waysOf(around.inside, around.states, state)),
    ...(over.part === undefined &&
      keysOf(
        'with',
        companions(around, verb).filter(other => other !== state),
      )),
    fields: fieldsOf(verb),
    ...over,
  };
}

/** What may move together with a device (common practice, no source). */
function companions({ inside: there, leaving, entering }: Around, verb: Verb): readonly DeviceState[] {
  if (verb === 'insert') return entering;
  if (verb === 'remove') return leaving;
  return verb === 'advance' || verb === 'withdraw' ? there.filter(one => again.has(one.details.family)) : [];
}

/** Verbs for which it is said what the device runs over or through. */
const runs: ReadonlySet<Verb> = new Set(['insert', 'advance', 'exchange', 'remove', 'withdraw', 'deploy']);

function outsideOffers(around: Around, state: DeviceState): Offer[] {
  const { details, cameBy, entryVerbs } = state;
  const { family, entry } = details;
  const spare = neverIn(state);
  if (entry.use === 'unopened') return [];
  const thrown: Offer[] =
    spare > 0 && !details.carried
      ? [offer(around, state, 'discard', state.total > 1 ? { most: spare } : {})]
      : [];
  if (!isReady(state)) return thrown;
  const most = state.total > 1 ? { most: freeOf(state) } : {};
  const ways = (['puncture', 'insert', 'deploy', 'inject', 'detach'] as const)
    .filter(verb => (cameBy ? entryVerbs.has(verb) : canEnter(verb, family)))
    // The tally takes a puncture for an entry of anything; people puncture with needles, and with what they did before.
    .filter(verb => verb !== 'puncture' || family === 'needle' || cameBy?.event.do === 'puncture')
    // A puncture with what is inside already is another puncture and no entry.
    .filter(verb => !(verb === 'puncture' && state.inside > 0));
  const kin = kinOf[family];
  const old = around.inside.filter(
    other => kin !== undefined && other !== state && kinOf[other.details.family] === kin,
  );
  const swaps =
    old.length > 0 && state.inside === 0 && (!cameBy || entryVerbs.has('exchange'))
      ? [offer(around, state, 'exchange', { ...keysOf('replaces', old), ...most })]
      : [];
  return [...ways.map(verb => offer(around, state, verb, most)), ...swaps, ...thrown];
}

/** How many of it can go in. */
function freeOf(state: DeviceState): number {
  const whole = state.condition === undefined || state.condition === 'intact';
  const back = again.has(state.details.family) && whole ? state.out : 0;
  return Math.min(neverIn(state) + back, state.total - state.inside - state.discarded);
}

/** True for what may go in at all. */
const isReady = (state: DeviceState): boolean =>
  state.details.entry.use !== 'unopened' &&
  state.details.entry.use !== 'opened unused' &&
  freeOf(state) > 0 &&
  !state.broken;

/** True where an insertion would be followed. */
const mayEnter = (state: DeviceState): boolean =>
  isReady(state) && (!state.cameBy || state.entryVerbs.has('insert'));

const canEnter = (verb: Verb, family: DeviceFamily): boolean =>
  verb === 'puncture' ? family === 'needle' : verb === 'insert' || entersByItself(verb, family);

function insideOffers(around: Around, state: DeviceState): Offer[] {
  if (state.inside <= 0) return [];
  const { details } = state;
  const most = state.inside > 1 ? { most: state.inside } : {};
  const own = inside[details.family].filter(verb => isPossible(state, verb));
  const peels = details.traits.has('peelable') ? (['peel away'] as const) : [];
  return [...peels, ...own, ...seldom.filter(verb => !own.includes(verb))].map(verb =>
    offer(around, state, verb, counted.has(verb) ? most : {}),
  );
}

/** Verbs that are about some of what is inside. */
const counted: ReadonlySet<Verb> = new Set(['remove', 'retrieve', 'lose']);

/** What a device cannot do as it is: come out while it is held, be set free twice. */
function isPossible(state: DeviceState, verb: Verb): boolean {
  const { locked, inflated, details, parts, entryVerbs } = state;
  switch (verb) {
    case 'inflate':
      return !inflated && (details.family === 'balloon' || details.traits.has('balloon-held'));
    case 'deflate':
      return inflated;
    case 'lock':
      return !locked && details.traits.has('locking') && !hasThread(parts);
    case 'unlock':
      return locked && !hasThread(parts);
    case 'remove':
    case 'retrieve':
      return (!locked || state.broken !== undefined) && !inflated;
    case 'deploy':
    case 'detach':
      // Where something else than an insertion was the way in, it is free already.
      return entryVerbs.has('insert');
    default:
      return true;
  }
}

const hasThread = (parts: ReadonlyMap<string, PartState>): boolean =>
  [...parts.values()].some(({ role, out, count }) => role === 'thread' && out < count);

function partOffers(around: Around, state: DeviceState): { attached: Offer[]; apart: Offer[] } {
  const attached: Offer[] = [];
  const apart: Offer[] = [];
  for (const part of state.parts.values()) {
    const on = part.count - part.inside - part.out;
    const about = (verb: Verb, most = 1) =>
      offer(around, state, verb, { part: part.key, ...(most > 1 && { most }) });
    if (part.inside > 0 || part.open)
      apart.push(about('remove', part.inside + (part.open ? on : 0)), about('lose'));
    else if (state.inside > 0 && on > 0 && part.role === 'thread')
      attached.push(about(state.locked ? 'unlock' : 'lock'), about('remove'), about('cut'));
    else if (state.inside > 0 && on > 0 && part.role === 'inner') attached.push(about('remove', on));
  }
  return { attached, apart };
}
