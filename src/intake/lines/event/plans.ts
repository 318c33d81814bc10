import type { DeviceFamily } from '../../../devices/types.js';
import type { Where } from '../table/choosing.js';
import type { OnTable } from '../table/table.js';
import type { ProposedEvent } from '../types.js';
import type { Act } from '../words/entry.js';

/** What a verb is in a record, and which device it can mean where none is named. */
export interface Plan {
  readonly do: ProposedEvent['do'];
  readonly where: Where;
  /** What it can be where the line names no device; none: the line must. */
  readonly can?: (device: OnTable) => boolean;
  /** True where an event without a device says enough. */
  readonly alone?: boolean;
  /** `with …` names the device and not something that goes along. */
  readonly instrument?: boolean;
}

const of =
  (...families: readonly DeviceFamily[]) =>
  ({ family }: OnTable) =>
    family !== undefined && families.includes(family);

const kindHas = (words: RegExp) => (device: OnTable) => [...device.words].some(word => words.test(word));
const lumens = of('needle', 'catheter', 'sheath', 'drain', 'tube');
const stays = of('drain', 'tube', 'catheter', 'sheath');
const anything = () => true;
const balloons = (device: OnTable) =>
  device.family === 'balloon' || (device.family === 'tube' && device.words.has('balloon'));
const placed = of('stent', 'filter', 'embolic', 'closure', 'anchor');

/** Common practice, no source. */
export const plans: Readonly<Record<Act, Plan>> = {
  insert: { do: 'insert', where: 'outside' },
  advance: { do: 'advance', where: 'anywhere', can: anything },
  withdraw: { do: 'withdraw', where: 'inside', can: anything },
  remove: { do: 'remove', where: 'inside', can: anything },
  pull: { do: 'remove', where: 'inside', can: anything },
  move: { do: 'reposition', where: 'anywhere', can: anything },
  exchange: { do: 'exchange', where: 'outside' },
  inflate: { do: 'inflate', where: 'inside', can: balloons, instrument: true },
  deflate: { do: 'deflate', where: 'inside', can: balloons },
  deploy: { do: 'deploy', where: 'anywhere', can: placed, instrument: true },
  release: { do: 'release', where: 'anywhere', can: of('stent', 'filter', 'embolic', 'drain') },
  detach: { do: 'detach', where: 'anywhere', can: of('embolic', 'stent') },
  capture: { do: 'capture', where: 'inside', can: of('filter') },
  retrieve: { do: 'retrieve', where: 'inside', can: anything },
  lock: { do: 'lock', where: 'inside', can: of('drain', 'tube', 'catheter') },
  unlock: { do: 'unlock', where: 'inside', can: of('drain', 'tube', 'catheter') },
  flush: { do: 'flush', where: 'anywhere', can: lumens, alone: true },
  aspirate: { do: 'aspirate', where: 'inside', can: lumens, alone: true, instrument: true },
  inject: { do: 'inject', where: 'inside', can: lumens, alone: true, instrument: true },
  sample: {
    do: 'sample',
    where: 'anywhere',
    can: kindHas(/^(?:biopsy|gun|fna|cytology)$/),
    instrument: true,
  },
  puncture: { do: 'puncture', where: 'outside', can: of('needle'), alone: true, instrument: true },
  fix: { do: 'set', where: 'inside', can: stays },
  setting: { do: 'set', where: 'inside', can: stays },
  'peel away': { do: 'peel away', where: 'inside', can: ({ peels }) => peels },
  measure: { do: 'measure', where: 'inside', alone: true, instrument: true },
  ablate: {
    do: 'ablate',
    where: 'inside',
    can: kindHas(/^(?:ablation|antenna|electrode|cryoprobe)$/),
    instrument: true,
  },
  tunnel: { do: 'tunnel', where: 'anywhere', can: of('catheter', 'drain'), alone: true },
  compress: { do: 'compress', where: 'anywhere', alone: true },
  cross: { do: 'cross', where: 'anywhere', can: of('guidewire'), instrument: true },
  discard: { do: 'discard', where: 'anywhere' },
  open: { do: 'open', where: 'anywhere' },
  cut: { do: 'cut', where: 'anywhere' },
  reposition: { do: 'reposition', where: 'inside', can: anything },
  image: { do: 'image', where: 'inside', alone: true },
  count: { do: 'count', where: 'anywhere' },
  happened: { do: 'note', where: 'inside' },
  lost: { do: 'note', where: 'inside' },
};

/** Bare `in` of what is set free: it is placed, and not only brought in. */
export const isPlaced = ({ family }: OnTable): boolean =>
  family === 'embolic' || family === 'anchor' || family === 'closure';

export const isBalloon = balloons;

/** Embolic material without a form of its own: it is injected, and not set free. */
export const isPoured = ({ family, kind }: OnTable): boolean =>
  family === 'embolic' &&
  /partic|sphere|bead|gelatin|sponge|foam|liquid|glue|cyanoacrylate|sclerosant|thrombin|cement|clot/i.test(
    kind,
  );
