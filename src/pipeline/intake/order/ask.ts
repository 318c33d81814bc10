import type { Session } from '../../../delivery/destination/session.js';
import type { Contribution } from '../../../intake/contribution.js';
import { type FetchedOrder, fetchOrder } from './fetch.js';
import { type OrderAsked, orderContribution } from './read.js';

/** What a destination gives of an order for a record, and what came of asking. */
export interface AskedOrder extends Omit<FetchedOrder, 'held'> {
  /** Absent where there is no such order, or no answer. */
  readonly contribution?: Contribution;
}

/** Asks a destination for an order, and reads what it holds. */
export async function askOrder(session: Session, asked: OrderAsked): Promise<AskedOrder> {
  const { held, ...rest } = await fetchOrder(session, asked.number.trim());
  return { ...rest, ...(held && { contribution: orderContribution(held, asked) }) };
}
