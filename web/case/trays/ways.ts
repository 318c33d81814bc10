import type { CaseEvent } from '../../../src/record/schema/record.js';
import type { Offer } from '../../../src/trays/offers.js';
import { type Chosen, eventOf } from '../../../src/trays/taps.js';
import type { Tree } from '../desk/tree.js';
import type { Edit } from '../engine/work.js';

export const relations = ['over', 'through', 'replaces'] as const;

/** What an offer is begun with. */
export function firstChosen({ likely, replaces, most }: Offer): Chosen {
  const [old] = replaces ?? [];
  return {
    ...likely,
    ...(old !== undefined && { replaces: old }),
    ...(most !== undefined && { count: 1 }),
  };
}

/** Verbs that are seldom meant and easily regretted: never the first thing to be touched. */
const SELDOM: ReadonlySet<string> = new Set(['cut', 'fracture', 'lose']);

/** So many fit under a device without hiding the next one. */
const USUAL = 5;

/** Verbs that say all by themselves; where they have a note it is added to the event. */
const PLAIN: ReadonlySet<string> = new Set(['lock', 'unlock', 'deflate', 'discard']);

/** Whether a touch says all of it: nothing is to be chosen, and nothing is usually said beside it. */
export const isPlain = (offer: Offer): boolean =>
  PLAIN.has(offer.do) &&
  (offer.most ?? 1) === 1 &&
  [...relations, 'with' as const].every(name => (offer[name] ?? []).length === 0);

/** Offers as they are shown: the usual ones, and the rest. */
export function parted(offers: readonly Offer[]): {
  readonly usual: readonly Offer[];
  readonly rest: readonly Offer[];
} {
  const usual = offers.filter(one => !SELDOM.has(one.do)).slice(0, USUAL);
  return { usual, rest: offers.filter(one => !usual.includes(one)) };
}

/** Writes an event at the end of the list. */
export const eventEdit = (event: Readonly<Record<string, unknown>>): Edit => ({
  path: 'events',
  insert: 'end',
  value: Object.fromEntries(
    Object.entries(event).map(([name, one]): [string, Tree] => [
      name,
      typeof one === 'number' ? `${one}` : (one as Tree),
    ]),
  ),
});

/** The event of a tap as the text has it. @param said what was typed into the fields of the offer */
export const tapped = (
  offer: Offer,
  time: string,
  chosen: Chosen,
  said: Readonly<Partial<Record<keyof CaseEvent, Tree>>> = {},
) => eventOf(offer, time, { ...chosen, said });
