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
  const { over, through, replaces, said = {} } = waysIn(offer, chosen);
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

/** What was chosen, without what it does away with: what comes out together with another does not come out over it. */
export function waysIn({ do: verb }: Pick<Offer, 'do'>, chosen: Chosen): Chosen {
  if (verb !== 'remove') return chosen;
  const { over, through, ...others } = chosen;
  const isAlong = (key: string | undefined) => key !== undefined && chosen.with?.includes(key);
  return {
    ...others,
    ...(over !== undefined && !isAlong(over) && { over }),
    ...(through !== undefined && !isAlong(through) && { through }),
  };
}
