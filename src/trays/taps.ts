import type { CaseEvent } from '../record/schema/record.js';
import type { Offer } from './offers.js';

/** What was chosen with an offer: keys of devices, how many, and what else is said of it, as it stands in a record. */
export interface Chosen {
  readonly over?: string;
  readonly through?: string;
  readonly replaces?: string;
  /** Keys of devices that moved together with it. */
  readonly with?: readonly string[];
  readonly count?: number;
  readonly said?: Readonly<Partial<Record<keyof CaseEvent, unknown>>>;
}

/**
 * The event that a tap writes, as it stands in the text of a record.
 * @param at time of the event as the record writes it, `10:12` or with a date
 */
export function eventOf(offer: Offer, at: string, chosen: Chosen = {}): Readonly<Record<string, unknown>> {
  const { replaces, said = {} } = chosen;
  // What comes out together with another does not come out over it.
  const isAlong = (key: string | undefined) =>
    offer.do === 'remove' && key !== undefined && chosen.with?.includes(key);
  const over = isAlong(chosen.over) ? undefined : chosen.over;
  const through = isAlong(chosen.through) ? undefined : chosen.through;
  // What is used by number always says how many: one event alone would mean all of them.
  const count = offer.most === undefined ? undefined : (chosen.count ?? 1);
  const fields: Readonly<Record<string, unknown>> = {
    at,
    do: offer.do,
    device: offer.device,
    part: offer.part,
    replaces,
    with: chosen.with && chosen.with.length > 0 ? chosen.with : undefined,
    over,
    through,
    count,
    ...said,
  };
  return Object.fromEntries(Object.entries(fields).filter(([, value]) => value !== undefined));
}
