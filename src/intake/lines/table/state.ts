import { entersByItself, verbs } from '../../../devices/tally/verbs.js';
import type { ProposedEvent } from '../types.js';
import type { OnTable } from './table.js';

/**
 * Moves devices in and out as an event says, by what the tally takes its verbs to mean.
 * @returns how many there were, where more are said to go in than there are
 */
export function apply(table: readonly OnTable[], event: ProposedEvent): number | undefined {
  const device = table.find(one => one.key === event.device);
  if (event.do === 'exchange') {
    const old = table.find(one => one.key === event.replaces);
    if (old) old.inside = Math.max(0, old.inside - 1);
  }
  if (!device || event.part !== undefined) return undefined;
  const { effect } = verbs[event.do];
  if (effect === 'leaves') {
    device.inside = 0;
    return undefined;
  }
  const counted = device.count > 1;
  const byItself = device.family !== undefined && entersByItself(event.do, device.family);
  const comes = effect === 'enters' || effect === 'swaps' || (byItself && (counted || device.inside === 0));
  if (!comes) return undefined;
  device.used = true;
  const left = device.count - device.inside;
  const count = event.count ?? 1;
  device.inside = Math.min(device.count, device.inside + count);
  return device.proposed || count <= left || event.do === 'inject' || (!counted && count < 2)
    ? undefined
    : left;
}
