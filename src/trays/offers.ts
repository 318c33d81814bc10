import type { DeviceState, PartState, Play } from '../devices/tally/state.js';
import { neverIn } from '../devices/tally/state.js';
import { entersByItself, type Verb } from '../devices/tally/verbs.js';
import type { DeviceFamily } from '../devices/types.js';
import type { CaseEvent } from '../record/schema/record.js';
import { fieldsOf } from './fields.js';

/** Something that can be done with a device, or a part of one, as things stand. */
export interface Offer {
  readonly do: Verb;
  readonly device: string;
  readonly part?: string;
  /** Devices that it may run over or through, or whose place it may take, by key; the one that moved last comes first. */
  readonly over?: readonly string[];
  readonly through?: readonly string[];
  readonly replaces?: readonly string[];
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

/** What others run through (common practice, no source). */
const hollow: ReadonlySet<DeviceFamily> = new Set([
  'needle',
  'catheter',
  'sheath',
  'dilator',
  'balloon',
  'drain',
  'tube',
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

/** Devices inside, the one that moved last first. */
export function insideOf({ states }: Play): readonly DeviceState[] {
  const moved = ({ cameBy, went }: DeviceState) => Math.max(cameBy?.index ?? -1, went?.by.index ?? -1);
  return [...states.values()].filter(({ inside }) => inside > 0).sort((a, b) => moved(b) - moved(a));
}

/**
 * What can be done with a device as things stand: what is outside can go in, what is inside can be used, changed or come
 * out. Nothing is offered that the tally would not follow.
 * @param there from `insideOf`
 */
export function offersOf(there: readonly DeviceState[], state: DeviceState): Offers {
  if (state.outside) return { outside: [], inside: [], apart: [] };
  const { attached, apart } = partOffers(there, state);
  return {
    outside: outsideOffers(there, state),
    inside: [...insideOffers(there, state), ...attached],
    apart,
  };
}

/** Keys of those but one whose family will do. */
const others = (
  there: readonly DeviceState[],
  but: DeviceState,
  may: (family: DeviceFamily) => boolean,
): readonly string[] =>
  there.filter(other => other !== but && may(other.details.family)).map(({ key }) => key);

const relation = (name: 'over' | 'through' | 'replaces', keys: readonly string[]) =>
  keys.length > 0 && { [name]: keys };

function offer(
  there: readonly DeviceState[],
  state: DeviceState,
  verb: Verb,
  over: Partial<Offer> = {},
): Offer {
  return {
    do: verb,
    device: state.key,
    ...(runs.has(verb) && waysOf(there, state)),
    fields: fieldsOf(verb),
    ...over,
  };
}

/** A wire runs through others, and over none; so does what embolises. */
const overNone: ReadonlySet<DeviceFamily> = new Set(['guidewire', 'embolic']);

const waysOf = (there: readonly DeviceState[], state: DeviceState): Partial<Offer> => ({
  ...(!overNone.has(state.details.family) &&
    relation(
      'over',
      others(there, state, family => family === 'guidewire'),
    )),
  ...relation(
    'through',
    others(there, state, family => hollow.has(family)),
  ),
});

/** Verbs for which it is said what the device runs over or through. */
const runs: ReadonlySet<Verb> = new Set(['insert', 'advance', 'exchange', 'remove', 'withdraw', 'deploy']);

function outsideOffers(there: readonly DeviceState[], state: DeviceState): Offer[] {
  const { details, cameBy, entryVerbs } = state;
  const { family, entry } = details;
  const spare = neverIn(state);
  if (entry.use === 'unopened') return [];
  const thrown: Offer[] =
    spare > 0 && !details.carried
      ? [offer(there, state, 'discard', state.total > 1 ? { most: spare } : {})]
      : [];
  const whole = state.condition === undefined || state.condition === 'intact';
  const back = again.has(family) && whole ? state.out : 0;
  const free = Math.min(spare + back, state.total - state.inside - state.discarded);
  if (entry.use === 'opened unused' || free <= 0 || state.broken) return thrown;
  const most = state.total > 1 ? { most: free } : {};
  const ways = (['puncture', 'insert', 'deploy', 'inject', 'detach'] as const)
    .filter(verb => (cameBy ? entryVerbs.has(verb) : canEnter(verb, family)))
    // The tally takes a puncture for an entry of anything; people puncture with needles, and with what they did before.
    .filter(verb => verb !== 'puncture' || family === 'needle' || cameBy?.event.do === 'puncture')
    // A puncture with what is inside already is another puncture and no entry.
    .filter(verb => !(verb === 'puncture' && state.inside > 0));
  const kin = kinOf[family];
  const old = kin === undefined ? [] : others(there, state, other => kinOf[other] === kin);
  const swaps =
    old.length > 0 && state.inside === 0 && (!cameBy || entryVerbs.has('exchange'))
      ? [offer(there, state, 'exchange', { ...relation('replaces', old), ...most })]
      : [];
  return [...ways.map(verb => offer(there, state, verb, most)), ...swaps, ...thrown];
}

const canEnter = (verb: Verb, family: DeviceFamily): boolean =>
  verb === 'puncture' ? family === 'needle' : verb === 'insert' || entersByItself(verb, family);

function insideOffers(there: readonly DeviceState[], state: DeviceState): Offer[] {
  if (state.inside <= 0) return [];
  const { details } = state;
  const most = state.inside > 1 ? { most: state.inside } : {};
  const own = inside[details.family].filter(verb => isPossible(state, verb));
  const peels = details.traits.has('peelable') ? (['peel away'] as const) : [];
  return [...peels, ...own, ...seldom.filter(verb => !own.includes(verb))].map(verb =>
    offer(there, state, verb, counted.has(verb) ? most : {}),
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

function partOffers(
  there: readonly DeviceState[],
  state: DeviceState,
): { attached: Offer[]; apart: Offer[] } {
  const attached: Offer[] = [];
  const apart: Offer[] = [];
  for (const part of state.parts.values()) {
    const on = part.count - part.inside - part.out;
    const about = (verb: Verb, most = 1) =>
      offer(there, state, verb, { part: part.key, ...(most > 1 && { most }) });
    if (part.inside > 0 || part.open)
      apart.push(about('remove', part.inside + (part.open ? on : 0)), about('lose'));
    else if (state.inside > 0 && on > 0 && part.role === 'thread')
      attached.push(about(state.locked ? 'unlock' : 'lock'), about('remove'), about('cut'));
    else if (state.inside > 0 && on > 0 && part.role === 'inner') attached.push(about('remove', on));
  }
  return { attached, apart };
}
