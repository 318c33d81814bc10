import { message } from '../../findings/message.js';
import type { Decimal } from '../../record/decimal.js';
import type { DeviceState } from '../tally/state.js';
import type { DeviceFamily } from '../types.js';
import { inchesInFrench } from './calibre.js';
import { type Moment, type SizeContext, say, skip, stateOf } from './context.js';
import { lumenOf, type Measure, needlePassage, outerOf, wireLumenOf, withMm } from './geometry.js';

/** Families that have a lumen for a wire. */
const hollow: ReadonlySet<DeviceFamily> = new Set([
  'needle',
  'catheter',
  'sheath',
  'dilator',
  'balloon',
  'stent',
  'drain',
  'tube',
]);

/** Wire against lumen: whichever of the two moves. */
export function checkWires(context: SizeContext, moment: Moment): void {
  const { device, at } = moment;
  if (!device || at.event.part !== undefined) return;
  const over = stateOf(moment, at.event.over);
  const through = stateOf(moment, at.event.through);
  if (over?.details.family === 'guidewire' && hollow.has(device.details.family)) {
    const goesOn = at.event.do === 'insert' || at.event.do === 'exchange' || at.event.do === 'advance';
    const lumen = statedLumen(device, !goesOn);
    const fits = wirePasses(context, device, over, lumen, `${at.path}.over`, at.event.at.clock);
    if (fits && goesOn) checkSupport(context, moment, device, over);
  }
  if (through && device.details.family === 'guidewire' && hollow.has(through.details.family))
    wirePasses(context, through, device, statedLumen(through, true), `${at.path}.through`, at.event.at.clock);
}

/** Says when the wire is too big; true when it surely passes. */
function wirePasses(
  context: SizeContext,
  tube: DeviceState,
  wire: DeviceState,
  stated: Measure | undefined,
  path: string,
  time: string,
): boolean {
  const what = message('unsized.wireLumen', { wire: wire.key, tube: tube.key });
  const thick = outerOf(wire.details);
  if (!thick) {
    skip(context, what, message('unsized.noDiameter', { what: wire.key }), path);
    return false;
  }
  const tooBig = (limit: Measure) => {
    say(context, [tube.key, wire.key], 'size.wire-too-big', path, {
      wire: wire.label,
      device: tube.label,
      time,
      wireSize: withMm(thick),
      lumen: withMm(limit),
    });
    return false;
  };
  if (stated) return thick.french.lte(stated.french) || tooBig(stated);
  if (tube.details.family === 'needle') {
    const passage = needlePassage(tube.details, thick);
    if (passage.passes === true) return true;
    if (passage.passes === false) return tooBig(passage.limit);
    const because =
      passage.passes === 'depends on the wall'
        ? message('unsized.wall', { tube: tube.key })
        : message('unsized.noGauge', { tube: tube.key });
    skip(context, what, because, path);
    return false;
  }
  skip(context, what, message('unsized.noWire', { tube: tube.key }), path);
  return false;
}

/** The largest wire as stated. */
function statedLumen(tube: DeviceState, inPlace: boolean): Measure | undefined {
  const { details } = tube;
  return (
    withoutDilator(tube, inPlace) ??
    wireLumenOf(details) ??
    (details.family === 'needle' ? undefined : lumenOf(details))
  );
}

/**
 * What a sheath takes while its dilator is not in it: the largest wire stated is that of the dilator. In a sheath that is
 * in place, with no dilator among its parts, there is none; undefined where the dilator counts.
 */
function withoutDilator(tube: DeviceState, inPlace: boolean): Measure | undefined {
  const { entry, family } = tube.details;
  if (family !== 'sheath' || !entry.takes) return undefined;
  const dilators = [...tube.parts.values()].filter(part => part.role === 'inner');
  const out = dilators.length === 0 ? inPlace : dilators.every(part => part.out > 0);
  const lumen = out ? lumenOf(tube.details) : undefined;
  const wire = wireLumenOf(tube.details);
  return lumen && wire?.french.gt(lumen.french) ? wire : lumen;
}

/** Upper bounds in inches of the wire systems that devices are made for. Common practice. */
const systems = [
  { name: '0.014 in', upTo: inchesInFrench('0.016') },
  { name: '0.018 in', upTo: inchesInFrench('0.021') },
  { name: '0.025 in', upTo: inchesInFrench('0.028') },
  { name: '0.035 in', upTo: inchesInFrench('0.039') },
];

function systemOf(size: Decimal): number {
  const index = systems.findIndex(system => size.lte(system.upTo));
  return index === -1 ? systems.length : index;
}

/** A wire thinner than this share of the lumen leaves a step at the tip. Common practice, no source. */
const SUPPORT = '0.65';

/** A device that goes over a wire much thinner than its lumen: a wire change was not recorded, or it is unsupported. */
function checkSupport(
  context: SizeContext,
  { play, at }: Moment,
  tube: DeviceState,
  wire: DeviceState,
): void {
  const lumen = withoutDilator(tube, false) ? undefined : wireLumenOf(tube.details);
  const thick = outerOf(wire.details);
  if (!lumen || !thick || tube.details.family === 'needle') return;
  // What goes in around an inner tube that fits the wire is supported by that.
  const companions = (at.event.with ?? []).map(key => play.states.get(key));
  const supported = companions.some(other => {
    const inner = other && wireLumenOf(other.details);
    return inner?.french.gte(thick.french) && thick.french.gte(inner.french.times(SUPPORT));
  });
  if (supported) return;
  const params = {
    wire: wire.label,
    device: tube.label,
    time: at.event.at.clock,
    wireSize: withMm(thick),
    lumen: withMm(lumen),
  };
  const path = `${at.path}.over`;
  if (systemOf(lumen.french) - systemOf(thick.french) >= 2)
    say(context, [tube.key, wire.key], 'size.wire-system', path, params);
  else if (thick.french.lt(lumen.french.times(SUPPORT)))
    say(context, [tube.key, wire.key], 'size.wire-undersized', path, params);
}
