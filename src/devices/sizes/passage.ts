import { message } from '../../findings/message.js';
import type { DeviceState } from '../tally/state.js';
import type { DeviceFamily, TallyEvent } from '../types.js';
import { type Moment, type SizeContext, say, skip, stateOf } from './context.js';
import { lumenOf, type Measure, outerOf, withMm } from './geometry.js';
import { smallestGrain } from './particles.js';

/** Families whose way in has a diameter that one can look up; coils and particles go by the catheter they are made for. */
const solid: ReadonlySet<DeviceFamily> = new Set([
  'needle',
  'catheter',
  'sheath',
  'dilator',
  'balloon',
  'stent',
  'drain',
  'filter',
  'retrieval',
  'tube',
]);

/** Device against sheath or guide, catheter inside catheter, needle inside needle. */
export function checkPassage(context: SizeContext, moment: Moment): void {
  const { device, at } = moment;
  if (!device || at.event.part !== undefined) return;
  const host = stateOf(moment, at.event.through);
  if (host && solid.has(device.details.family))
    passes(context, host, device, `${at.path}.through`, at.event.at.clock);
  if (host) checkGrains(context, host, device, at);
  const inner = stateOf(moment, at.event.over);
  if (inner && solid.has(inner.details.family) && solid.has(device.details.family))
    passes(context, device, inner, `${at.path}.over`, at.event.at.clock);
}

/** `wall`: nothing can reach it. */
type Limit = Measure & { readonly wall?: true };

function passes(
  context: SizeContext,
  host: DeviceState,
  inner: DeviceState,
  path: string,
  time: string,
): void {
  const what = message('unsized.lumen', { device: inner.key, host: host.key });
  const thick = outerOf(inner.details);
  if (!thick) {
    skip(context, what, message('unsized.noThickness', { device: inner.key }), path);
    return;
  }
  const limit = limitOf(host, inner);
  if (!limit) {
    skip(context, what, message('unsized.noTakes', { host: host.key }), path);
    return;
  }
  const fits = isWithin(thick, limit);
  if (fits && limit.wall) skip(context, what, message('unsized.noTakes', { host: host.key }), path);
  if (fits) return;
  say(context, [host.key, inner.key], 'size.device-too-big', path, {
    device: inner.label,
    host: host.label,
    time,
    size: withMm(thick),
    lumen: limit.wall ? message('size.underOutside', { outside: withMm(limit) }) : withMm(limit),
  });
}

const isWithin = (thick: Measure, limit: Limit): boolean =>
  limit.wall ? thick.french.lt(limit.french) : thick.french.lte(limit.french);

/** True where the sizes that are known say that a device does not go through another. */
export function isTooBig(host: DeviceState, inner: DeviceState): boolean {
  const thick = solid.has(inner.details.family) ? outerOf(inner.details) : undefined;
  const limit = limitOf(host, inner);
  return thick !== undefined && limit !== undefined && !isWithin(thick, limit);
}

/** Grains give way in a lumen, but the smallest is never wider than the outside of the tube that it went through. */
function checkGrains(context: SizeContext, host: DeviceState, device: DeviceState, at: TallyEvent): void {
  const grain = smallestGrain(device.details);
  const outside = grain && outerOf(host.details);
  if (!grain || !outside || grain.french.lt(outside.french)) return;
  say(context, [host.key, device.key], 'size.device-too-big', `${at.path}.through`, {
    device: device.label,
    host: host.label,
    time: at.event.at.clock,
    size: withMm(grain),
    lumen: message('size.underOutside', { outside: withMm(outside) }),
  });
}

/**
 * The lumen; or, for guides and needles whose lumen is not stated, the outside as a bound that nothing can reach.
 * The largest wire of a diagnostic catheter is its lumen, that of a guide or a needle is not.
 */
function limitOf(host: DeviceState, inner: DeviceState): Limit | undefined {
  const { details } = host;
  const wide = details.family === 'needle' || details.traits.has('guiding');
  const lumen = lumenOf(details);
  if (lumen && (details.entry.takes || !wide)) return lumen;
  const outside = outerOf(details);
  if (outside && inner.key !== host.key) return { ...outside, wall: true };
  return undefined;
}
