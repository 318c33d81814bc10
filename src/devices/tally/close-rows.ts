import type { Finding } from '../../findings/finding.js';
import type { Message } from '../../findings/message.js';
import type { EndState, TallyEntry, TallyEvent } from '../types.js';
import type { LeftLines } from './left.js';
import { whyMissing } from './missing.js';
import type { DeviceState } from './state.js';

/** What closing one device, or parts of it, gives. */
export interface Closed {
  readonly entries: readonly TallyEntry[];
  readonly findings: readonly Finding[];
}

/** One row of the tally for `count` alike devices that never went in. */
export function spare(
  state: DeviceState,
  end: EndState,
  why: Message,
  count: number,
  event?: TallyEvent,
): TallyEntry {
  return {
    device: state.key,
    name: state.details.called,
    state: end,
    why,
    ...(event && { event }),
    count,
    carried: state.details.carried,
  };
}

/** The same for those that are, or were, inside. */
export function row(
  state: DeviceState,
  end: EndState,
  why: Message,
  count: number,
  event?: TallyEvent,
): TallyEntry {
  return { ...spare(state, end, why, count, event), ...(state.inserted && { inserted: state.inserted }) };
}

/** The rows of those among `open` that the record calls missing, and how many then remain open. */
export function notFound(
  state: DeviceState,
  left: LeftLines,
  open: number,
  event: TallyEvent | undefined,
): { entries: TallyEntry[]; rest: number } {
  const { taken, rest } = left.missing.take(state.key, undefined, open);
  const entries = taken.map(({ line, count }) => ({
    ...(event ? row : spare)(state, 'missing', whyMissing(line), count, event),
    missing: { index: line.index, entry: line.entry },
  }));
  return { entries, rest };
}
