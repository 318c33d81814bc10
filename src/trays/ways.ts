import { isTooBig } from '../devices/sizes/passage.js';
import type { DeviceState } from '../devices/tally/state.js';
import type { DeviceFamily } from '../devices/types.js';

/** What a device may run over and through, as things stand, by key; the one that moved last comes first. */
export interface Ways {
  readonly over?: readonly string[];
  readonly through?: readonly string[];
  /** What of it is most likely, to begin with; absent where that is nothing. */
  readonly likely?: { readonly over?: string; readonly through?: string };
}

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

/** A wire runs through others, and over none; so does what embolises. */
const overNone: ReadonlySet<DeviceFamily> = new Set(['guidewire', 'embolic']);

/** What goes in over a wire that lies there (common practice, no source); a needle does not. */
const overAWire: ReadonlySet<DeviceFamily> = new Set([
  'catheter',
  'sheath',
  'dilator',
  'balloon',
  'stent',
  'drain',
  'filter',
  'closure',
  'tube',
]);

/** What usually goes in through what (common practice, no source); what is not here goes in through nothing. */
const usually: Readonly<Partial<Record<DeviceFamily, readonly DeviceFamily[]>>> = {
  guidewire: [...hollow],
  needle: ['needle', 'sheath'],
  catheter: ['sheath', 'catheter'],
  balloon: ['sheath', 'catheter'],
  stent: ['sheath', 'catheter'],
  filter: ['sheath', 'catheter'],
  retrieval: ['sheath', 'catheter'],
  accessory: ['sheath', 'catheter'],
  embolic: ['catheter', 'needle', 'sheath'],
  closure: ['sheath'],
  anchor: ['needle', 'sheath'],
};

type States = ReadonlyMap<string, DeviceState>;

/**
 * What it may run over and through. What runs on the device itself is not among what it runs through, nor is what is
 * known to be too narrow for it.
 * @param inside what is in the patient, the one that moved last first
 * @param states of all devices, by key
 */
export function waysOf(inside: readonly DeviceState[], states: States, state: DeviceState): Ways {
  const { family } = state.details;
  const wires = inside.filter(other => other.details.family === 'guidewire' && other !== state);
  const over = overNone.has(family) ? [] : wires;
  const through = inside.filter(
    other =>
      other !== state &&
      hollow.has(other.details.family) &&
      // What runs over a wire is what the wire runs through.
      (family === 'guidewire' || !runsOnIt(states, other, state.key)) &&
      !isTooBig(other, state),
  );
  const likely = state.inside > 0 ? runsOn(state, over, through) : entersOn(state, over, through);
  return {
    ...keysOf('over', over),
    ...keysOf('through', through),
    ...(Object.keys(likely).length > 0 && { likely }),
  };
}

/** Nobody has more of them in one another; a record that says so is not followed further. */
const DEEPEST = 6;

/** True where a device runs over or through another, or over or through what does. */
function runsOnIt(states: States, { over, through }: DeviceState, key: string, depth = 0): boolean {
  return [over, through].some(on => {
    if (on === undefined || on === key) return on === key;
    const next = states.get(on);
    return depth < DEEPEST && next !== undefined && next.inside > 0 && runsOnIt(states, next, key, depth + 1);
  });
}

type Likely = NonNullable<Ways['likely']>;

/** What is inside runs on what it came on; a needle or tube on the wire in it, a wire through what was put over it. */
function runsOn(state: DeviceState, over: readonly DeviceState[], through: readonly DeviceState[]): Likely {
  const wire = over.find(({ key }) => key === state.over) ?? over.find(other => other.through === state.key);
  const host =
    through.find(other => other.over === state.key) ?? through.find(({ key }) => key === state.through);
  return { ...(wire && { over: wire.key }), ...(host && { through: host.key }) };
}

/** What goes in runs over the wire and through what moved last of what is usual for it. */
function entersOn(
  { details }: DeviceState,
  over: readonly DeviceState[],
  through: readonly DeviceState[],
): Likely {
  const [wire] = overAWire.has(details.family) ? over : [];
  const host = through.find(other => usually[details.family]?.includes(other.details.family));
  return { ...(wire && { over: wire.key }), ...(host && { through: host.key }) };
}

type Relation = 'over' | 'through' | 'replaces' | 'with';

/** Keys of devices under the name of their relation; nothing where there are none. */
export const keysOf = (
  name: Relation,
  states: readonly DeviceState[],
): Readonly<Partial<Record<Relation, readonly string[]>>> =>
  states.length > 0 ? { [name]: states.map(({ key }) => key) } : {};
