import { partNamed } from '../devices/parts.js';
import { type DeviceState, neverIn, type Play } from '../devices/tally/state.js';
import type { Param } from '../findings/message.js';
import { type Around, aroundOf, type Offer, offersOf } from './offers.js';

/** Where a thing is at a moment of the case. `undecided`: its device came out and nobody said whether it came too. */
export const trays = ['on the table', 'in the patient', 'out', 'undecided'] as const;
export type Tray = (typeof trays)[number];

/** A device, or a part that goes its own way, where it is. One that is used by number can be at several places. */
export interface Placed {
  readonly device: string;
  readonly part?: string;
  readonly name: Param;
  readonly tray: Tray;
  readonly count: number;
  /** Keys of what it runs over and through, and of what runs over or through it. */
  readonly over?: string;
  readonly through?: string;
  readonly carries: readonly string[];
  readonly locked: boolean;
  readonly inflated: boolean;
  readonly broken: boolean;
  /** Stays outside the patient by its kind. */
  readonly outside: boolean;
  /** What can be done with it here. */
  readonly offers: readonly Offer[];
}

/** Where every device is once the events so far were played, in the order of the record. */
export function traysOf(play: Play): readonly Placed[] {
  const around = aroundOf(play);
  return [...play.states.values()].flatMap(state => placesOf(play, around, state));
}

function placesOf(play: Play, around: Around, state: DeviceState): Placed[] {
  const { key } = state;
  const offers = offersOf(around, state);
  const spare = neverIn(state);
  const inside = state.inside > 0;
  const carries = [...play.states.values()]
    .filter(other => other.inside > 0 && inside && (other.over === key || other.through === key))
    .map(other => other.key);
  const common = {
    device: key,
    locked: state.locked,
    inflated: state.inflated,
    broken: state.broken !== undefined,
    outside: state.outside,
  };
  const own: Placed = {
    ...common,
    name: state.details.called,
    tray: 'on the table',
    count: 0,
    carries: [],
    offers: [],
  };
  return [
    { ...own, count: spare, offers: offers.outside },
    {
      ...own,
      tray: 'in the patient' as const,
      count: state.inside,
      carries,
      offers: offers.inside,
      ...(inside && state.over !== undefined && { over: state.over }),
      ...(inside && state.through !== undefined && { through: state.through }),
    },
    {
      ...own,
      tray: 'out' as const,
      count: state.out + state.discarded,
      offers: spare > 0 ? [] : offers.outside,
    },
    ...[...state.parts.values()].flatMap((part): Placed[] => {
      const piece = {
        ...own,
        part: part.key,
        name: partNamed(part.kind),
        offers: offers.apart.filter(one => one.part === part.key),
      };
      const open = part.open ? part.count - part.inside - part.out : 0;
      return [
        { ...piece, tray: 'in the patient', count: part.inside },
        { ...piece, tray: 'undecided', count: open },
      ];
    }),
  ].filter(({ count }) => count > 0);
}
