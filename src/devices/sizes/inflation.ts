import { message } from '../../findings/message.js';
import { inBaseUnit } from '../../record/quantity.js';
import { inFrench } from './calibre.js';
import { type Moment, type SizeContext, say, skip } from './context.js';
import { shaftOf } from './geometry.js';

/** Pressure against what the balloon is rated for. */
export function checkPressure(context: SizeContext, { device, at }: Moment): void {
  const { event } = at;
  if (
    !device ||
    (event.do !== 'inflate' && !(event.do === 'deploy' && event.pressure)) ||
    (device.details.family !== 'balloon' && device.details.family !== 'stent')
  )
    return;
  const path = `${at.path}.pressure`;
  const what = message('unsized.pressure', { device: device.key });
  const rated = device.details.entry.ratedPressure;
  if (!event.pressure || !rated) {
    skip(context, what, message(event.pressure ? 'unsized.noRated' : 'unsized.noPressure'), path);
    return;
  }
  const [given, limit] = [inBaseUnit(event.pressure), inBaseUnit(rated)];
  if (!given || !limit || given.lte(limit)) return;
  say(context, [device.key, at.path], 'size.over-pressure', path, {
    device: device.label,
    time: event.at.clock,
    pressure: { quantity: event.pressure },
    rated: { quantity: rated },
  });
}

/** Nothing can be further inside than it is long. */
export function checkDepth(context: SizeContext, { device, at }: Moment): void {
  const { depth } = at.event;
  const shaft = device && shaftOf(device.details);
  const inside = depth && inFrench(depth);
  if (!device || !depth || !inside || !shaft || at.event.part !== undefined || inside.lte(shaft.french))
    return;
  say(context, [device.key, at.path], 'size.deeper-than-long', `${at.path}.depth`, {
    device: device.label,
    time: at.event.at.clock,
    depth: { quantity: depth },
    length: shaft.text,
  });
}

/** Remembers how far devices are inside; what comes out, or goes in anew, starts without. */
export function followDepth(context: SizeContext, { play, at }: Moment): void {
  const { event } = at;
  const forget = event.do === 'remove' || event.do === 'retrieve' || event.do === 'insert';
  for (const key of [...(forget ? [event.device, ...(event.with ?? [])] : []), event.replaces])
    if (key !== undefined && event.part === undefined) context.depths.delete(key);
  const french = event.depth && inFrench(event.depth);
  if (!event.depth || !french || event.device === undefined || event.part !== undefined) return;
  const measure = { french, text: { quantity: event.depth } };
  context.depths.set(event.device, measure);
  // The wire reaches at least as far as what lies over it.
  const device = play.states.get(event.device);
  const wire = event.over ?? device?.over;
  const known = wire === undefined ? undefined : context.depths.get(wire);
  if (wire !== undefined && (!known || known.french.lt(french))) context.depths.set(wire, measure);
}
