import { message } from '../../findings/message.js';
import { isNamedLater, removalOf } from '../tally/remedies.js';
import type { DeviceState } from '../tally/state.js';
import { verbs } from '../tally/verbs.js';
import type { DeviceFamily } from '../types.js';
import { type Moment, type SizeContext, say, stateOf } from './context.js';

/** Families with a hub or a shape that no tube of the usual kind comes off over. */
const hubbed: ReadonlySet<DeviceFamily> = new Set(['catheter', 'drain', 'tube', 'balloon', 'sheath']);
/** Tubes that sit tight on a wire: nothing else goes over it while they are there. */
const tight: ReadonlySet<DeviceFamily> = new Set([
  'needle',
  'catheter',
  'dilator',
  'balloon',
  'drain',
  'tube',
]);

/** Order traps: a sheath that does not peel around what must stay, a wire that still carries another device. */
export function checkOrder(context: SizeContext, moment: Moment): void {
  followWay(context, moment);
  checkTrapped(context, moment);
  checkOccupied(context, moment);
}

/** Where the record does not say that it ran through the sheath, only that their wires were the same. */
const UNSAID = message('answer.trapped');

/** A device that goes over a wire on which a sheath still is goes through the sheath, whether or not it is said. */
function followWay(context: SizeContext, moment: Moment): void {
  const { at, play } = moment;
  const { event } = at;
  if (event.device === undefined || event.part !== undefined) return;
  if (verbs[event.do].effect !== 'enters' && event.do !== 'exchange') return;
  context.ways.delete(event.device);
  const wire = stateOf(moment, event.over);
  if (event.through !== undefined || wire?.details.family !== 'guidewire') return;
  for (const other of play.states.values()) {
    const onWire = other.inside > 0 && (other.over === wire.key || wire.through === other.key);
    const moves =
      other.key === event.replaces || event.with?.includes(other.key) || other.key === event.device;
    if (onWire && !moves && other.details.family === 'sheath') context.ways.set(event.device, other.key);
  }
}

function checkTrapped(context: SizeContext, moment: Moment): void {
  const { device, at, play } = moment;
  const { event } = at;
  if (!device || event.part !== undefined || verbs[event.do].effect !== 'leaves' || device.inside === 0)
    return;
  const { family, traits } = device.details;
  const tube = family === 'sheath' || family === 'catheter' || family === 'needle';
  if (!tube || event.do === 'peel away' || traits.has('peelable')) return;
  for (const inner of play.states.values()) {
    const said = inner.through === device.key;
    const inside = said || context.ways.get(inner.key) === device.key;
    const stays = inner.inside > 0 && inside && !event.with?.includes(inner.key);
    if (!stays || !hubbed.has(inner.details.family)) continue;
    const params = { sheath: device.label, device: inner.label, time: event.at.clock };
    const remedy = said ? {} : { remedy: UNSAID };
    say(context, [device.key, inner.key], 'size.sheath-trapped', at.path, params, remedy);
  }
}

/** Where the other is still inside afterwards, its removal is no way out. */
const ORDER = message('answer.wentOver');

function checkOccupied(context: SizeContext, moment: Moment): void {
  const { device, at, play } = moment;
  const { event } = at;
  const wire = stateOf(moment, event.over);
  const enters = event.do === 'insert' || event.do === 'exchange';
  if (!device || event.part !== undefined || !enters || wire?.details.family !== 'guidewire') return;
  const around = hostsOf(moment, event.through);
  for (const other of play.states.values()) {
    const onWire = other.inside > 0 && (other.over === wire.key || wire.through === other.key);
    const moves = other.key === event.replaces || event.with?.includes(other.key) || other.key === device.key;
    if (!onWire || moves || around.has(other.key) || !tight.has(other.details.family)) continue;
    say(
      context,
      [device.key, other.key],
      'size.wire-occupied',
      `${at.path}.over`,
      {
        device: device.label,
        wire: wire.label,
        other: other.label,
        time: event.at.clock,
      },
      isNamedLater(play.record, other.key, at)
        ? { remedy: ORDER }
        : { remedy: message('answer.removeBefore', { removal: removalOf(other) }) },
    );
  }
}

/** The tube it goes through, and the tubes around that. */
function hostsOf(moment: Moment, key: string | undefined): ReadonlySet<string> {
  const hosts = new Set<string>();
  let host: DeviceState | undefined = stateOf(moment, key);
  while (host && !hosts.has(host.key)) {
    hosts.add(host.key);
    host = stateOf(moment, host.through);
  }
  return hosts;
}
