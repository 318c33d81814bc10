import { message } from '../../findings/message.js';
import type { DeviceState } from '../tally/state.js';
import { mmInFrench, printCm } from './calibre.js';
import { type Moment, type SizeContext, say, skip, stateOf } from './context.js';
import { type Measure, outerOf, shaftOf } from './geometry.js';

/** What a hand needs to hold the wire by, outside. Common practice, no source: 10 cm. */
const MARGIN = mmInFrench('100');

/** Part of a device that lies inside when its tip is where it is needed. From memory; from a third to two thirds. */
const USUALLY_INSIDE = '0.5';

/** What is finer than 3.5 Fr goes in with its wire in it, which has no place to keep yet. Common practice, no source. */
const isFine = ({ details }: DeviceState) => outerOf(details)?.french.lt('3.5') === true;

/**
 * Wire length against what comes off or goes on over it: the wire must hold the position while the whole device is
 * on the part outside. With the length inside unknown, only what is surely too short is said.
 */
export function checkExchange(context: SizeContext, moment: Moment): void {
  const { device, at } = moment;
  const { event } = at;
  const wire = stateOf(moment, event.over);
  if (!device || event.part !== undefined || wire?.details.family !== 'guidewire') return;
  const path = `${at.path}.over`;
  if (event.do === 'insert') check(context, moment, wire, device, 'goes on', path);
  if (event.do === 'remove' || event.do === 'retrieve')
    check(context, moment, wire, device, 'comes off', path);
  if (event.do !== 'exchange') return;
  const old = stateOf(moment, event.replaces);
  if (old) check(context, moment, wire, old, 'comes off', path);
  check(context, moment, wire, device, 'goes on', path);
}

function check(
  context: SizeContext,
  { at }: Moment,
  wire: DeviceState,
  device: DeviceState,
  way: 'goes on' | 'comes off',
  path: string,
): void {
  const { details } = device;
  if (details.family === 'guidewire' || details.family === 'embolic') return;
  const what = message('unsized.wireLength', { device: device.key, wire: wire.key });
  const length = shaftOf(wire.details);
  const shaft = shaftOf(details);
  if (!length || !shaft) {
    skip(context, what, message('unsized.noLength', { what: length ? device.key : wire.key }), path);
    return;
  }
  if (details.traits.has('rapid exchange')) {
    skip(context, what, message('unsized.rapidExchange', { device: device.key }), path);
    return;
  }
  const inside = insideOf(context, wire, device, way);
  const least = shaft.french.plus(MARGIN);
  const needed = inside ? least.plus(inside.french) : least;
  if (needed.lte(length.french)) {
    // Twice the device is more than it and what can be inside of it: no depth is needed to be sure.
    if (inside || shaft.french.times(2).plus(MARGIN).lte(length.french)) return;
    const usual = least.plus(shaft.french.times(USUALLY_INSIDE));
    if (usual.gt(length.french) && !isFine(device))
      say(context, [wire.key, device.key, way], 'size.wire-perhaps-short', path, {
        wire: wire.label,
        device: device.label,
        way: message(way === 'goes on' ? 'size.goesOn' : 'size.comesOff'),
        time: at.event.at.clock,
        needed: printCm(usual),
        length: length.text,
      });
    else skip(context, what, message('unsized.noDepth'), path);
    return;
  }
  const sum = { shaft: shaft.text, device: device.key, margin: printCm(MARGIN) };
  say(context, [wire.key, device.key, way], 'size.wire-too-short', path, {
    wire: wire.label,
    device: device.label,
    way: message(way === 'goes on' ? 'size.goesOn' : 'size.comesOff'),
    time: at.event.at.clock,
    sum: inside ? message('size.sumInside', { ...sum, inside: inside.text }) : message('size.sum', sum),
    needed: printCm(needed),
    length: length.text,
    short: printCm(needed.minus(length.french)),
  });
}

/** Length of the wire inside: its own recorded depth, else that of the device which comes off. */
function insideOf(
  context: SizeContext,
  wire: DeviceState,
  device: DeviceState,
  way: 'goes on' | 'comes off',
): Measure | undefined {
  const own = context.depths.get(wire.key);
  const theirs = way === 'comes off' ? context.depths.get(device.key) : undefined;
  if (!own || !theirs) return own ?? theirs;
  return theirs.french.gt(own.french) ? theirs : own;
}
