import type { Param } from '../../findings/message.js';
import { message } from '../../findings/message.js';
import type { Decimal } from '../../record/decimal.js';
import { type Quantity, readQuantity } from '../../record/quantity.js';
import { type LengthMeasure, lengthTable } from '../../trade/measures.js';
import type { DeviceState, Play } from '../tally/state.js';
import { inOrder } from '../tally/state.js';
import type { TallyEvent } from '../types.js';
import { inFrench, mmInFrench, printCm, printMm } from './calibre.js';
import { type SizeContext, say, skip } from './context.js';
import { type Measure, nominalOf, shaftOf } from './geometry.js';

/** What opened in a target: a balloon inflated, or a stent set free. */
interface Opening {
  readonly state: DeviceState;
  readonly at: TallyEvent;
  readonly target: string;
  readonly diameter: Measure | undefined;
  readonly length: Measure | undefined;
}

/** Usual limits of diameter over the healthy vessel or duct beside. Common practice, no source. */
const LIMITS = {
  balloon: { least: '0.8', most: '1.2' },
  stent: { least: '1', most: '1.3' },
  // The size of a filter is that of the widest vessel it holds in.
  filter: { least: '1', most: '10' },
  // Set free across the bifurcation, a stent is sized to the common carotid artery, up to twice as wide as the internal.
  carotidStent: { least: '1', most: '2' },
  // It presses a stent on, or makes way for one: how far is a matter of the plaque.
  carotidBalloon: { least: '0', most: '1.2' },
} as const;

const CAROTID = /\bcarotid\b|\b[IC]CA\b/i;

/** Balloons and stents against the targets they opened in, once everything has been played. */
export function checkTargets(context: SizeContext, play: Play): void {
  const openings = openingsOf(play);
  for (const [key, target] of Object.entries(context.record.targets ?? {})) {
    const here = openings.filter(opening => opening.target === key);
    if (here.length === 0) continue;
    const carotid = CAROTID.test(target.what.text);
    checkDiameters(context, key, target.diameter, here, carotid);
    checkLengths(context, key, target.length, here, carotid ? ['stent'] : ['stent', 'balloon']);
  }
  checkUreteric(context, openings);
  checkReach(context, play);
}

/** The target of an event, else the one that the device was last said to lie across. */
function openingsOf(play: Play): Opening[] {
  const lies = new Map<string, string>();
  const placed = new Map<string, Opening>();
  const openings: Opening[] = [];
  for (const at of inOrder(play.record)) {
    const { event } = at;
    const state = event.device === undefined ? undefined : play.states.get(event.device);
    if (!state || event.part !== undefined) continue;
    const said = event.across ?? event.target;
    if (said !== undefined) lies.set(state.key, said);
    const target = said ?? lies.get(state.key);
    const { family } = state.details;
    if (target === undefined || !opens(family)) continue;
    const nominal = nominalOf(state.details);
    const french = event.diameter && inFrench(event.diameter);
    const opened = event.diameter && french ? { french, text: { quantity: event.diameter } } : undefined;
    // A device of twice the width that it was opened to has its size mistyped; a soft balloon is not filled to its size.
    const wide = family === 'stent' ? '2' : event.pressure && '1.6';
    const slipped = opened && wide && nominal.diameter?.french.gt(opened.french.times(wide));
    const own = slipped ? nominal.diameter : (opened ?? nominal.diameter);
    const opening: Opening = { state, at, target, diameter: own, length: nominal.length };
    if (family === 'balloon' && event.do === 'inflate') openings.push(opening);
    if (family !== 'balloon' && (event.do === 'insert' || event.do === 'deploy' || event.do === 'release'))
      placed.set(state.key, opening);
  }
  return [...openings, ...placed.values()];
}

const opens = (family: DeviceState['details']['family']): family is 'balloon' | 'stent' | 'filter' =>
  family === 'balloon' || family === 'stent' || family === 'filter';

function limitsOf({ details: { family, row } }: DeviceState, carotid: boolean) {
  if (carotid && family === 'stent' && row !== 'balloon-expandable stent') return LIMITS.carotidStent;
  if (carotid && family === 'balloon') return LIMITS.carotidBalloon;
  return LIMITS[opens(family) ? family : 'balloon'];
}

function checkDiameters(
  context: SizeContext,
  target: string,
  diameter: Quantity | undefined,
  openings: readonly Opening[],
  carotid: boolean,
): void {
  const vessel = diameter && inFrench(diameter);
  const largest = new Map<string, Opening>();
  for (const opening of openings) {
    const { state, at, diameter: open } = opening;
    // A ureteric stent or plastic biliary stent is sized in Fr: it drains and does not hold open.
    const calibre = state.details.size?.diameter.code === '[Ch]' && state.details.family === 'stent';
    if (calibre) continue;
    const what = message('unsized.targetDiameter', { device: state.key, target });
    if (!open || !vessel || !diameter) {
      const because = message('unsized.noDiameter', { what: open ? target : state.key });
      skip(context, what, because, at.path);
      continue;
    }
    const limits = limitsOf(state, carotid);
    if (open.french.gt(vessel.times(limits.most)))
      say(context, [state.key, target], 'size.oversize', at.path, {
        device: state.label,
        open: open.text,
        target,
        diameter: { quantity: diameter },
        percent: percent(open.french, vessel),
      });
    const before = largest.get(state.details.family);
    if (!before?.diameter || before.diameter.french.lt(open.french))
      largest.set(state.details.family, opening);
  }
  // A small balloon first is usual; only the largest tells.
  for (const { state, at, diameter: open } of largest.values()) {
    const limits = limitsOf(state, carotid);
    if (!open || !vessel || !diameter || open.french.gte(vessel.times(limits.least))) continue;
    // Before a stent a smaller balloon makes room for it; what opens the vessel is the stent.
    const stent = state.details.family === 'balloon' ? largest.get('stent') : undefined;
    const wideEnough = stent?.diameter?.french.gte(vessel.times(limitsOf(stent.state, carotid).least));
    if (wideEnough && stent && stent.at.event.at.epoch > at.event.at.epoch) continue;
    say(context, [state.key, target], 'size.undersize', at.path, {
      device: state.label,
      open: open.text,
      target,
      diameter: { quantity: diameter },
      percent: percent(open.french, vessel),
    });
  }
}

const percent = (open: Decimal, vessel: Decimal): Param => ({
  quantity: { value: open.div(vessel).times(100).toDecimalPlaces(0).toString(), unit: '%', code: '%' },
  spaced: true,
});

function checkLengths(
  context: SizeContext,
  target: string,
  length: Quantity | undefined,
  openings: readonly Opening[],
  families: readonly ('stent' | 'balloon')[],
): void {
  const lesion = length && inFrench(length);
  for (const family of families) {
    const here = openings.filter(({ state }) => state.details.family === family);
    const last = here.at(-1);
    if (!last) continue;
    const devices = here.map(({ state }) => state.key).join(', ');
    const what = message('unsized.targetLength', { devices, target });
    const unknown = here.find(opening => !opening.length);
    if (!lesion || !length || unknown) {
      const because = message('unsized.noLength', { what: unknown ? unknown.state.key : target });
      skip(context, what, because, last.at.path);
      continue;
    }
    const covered = here.reduce((sum, opening) => sum.plus(opening.length?.french ?? 0), mmInFrench('0'));
    if (covered.gte(lesion)) continue;
    say(
      context,
      [family, target],
      family === 'stent' ? 'size.stent-short' : 'size.balloon-short',
      last.at.path,
      {
        device: last.state.label,
        covered: printMm(covered),
        target,
        length: { quantity: length },
      },
    );
  }
}

/** A ureteric stent may be this much longer than the ureter before its loops crowd the bladder. Common practice. */
const URETER_SPARE = mmInFrench('40');

function checkUreteric(context: SizeContext, openings: readonly Opening[]): void {
  for (const { state, at, target, length } of openings) {
    if (!state.details.traits.has('ureteric')) continue;
    const what = message('unsized.ureter', { device: state.key });
    const measured = lengthMeasured(context, target, 'length of the ureter');
    if (!measured || !length) {
      skip(
        context,
        what,
        measured ? message('unsized.noLength', { what: state.key }) : message('unsized.noMeasured'),
        at.path,
      );
      continue;
    }
    const params = { device: state.label, length: length.text, measured: measured.text };
    if (length.french.lt(measured.french)) say(context, [state.key], 'size.ureteric-short', at.path, params);
    if (length.french.gt(measured.french.plus(URETER_SPARE)))
      say(context, [state.key], 'size.ureteric-long', at.path, params);
  }
}

/** A length among the outcome's measurements, or at the start of a `measure` event's result. */
function lengthMeasured(
  context: SizeContext,
  target: string | undefined,
  wanted: LengthMeasure['name'],
): Measure | undefined {
  const { record } = context;
  for (const { what, value, unit, target: about } of record.outcome?.measurements ?? []) {
    const named = lengthTable.find(what.text)?.row.name;
    const meant = named === wanted || (named === 'length' && about !== undefined && about === target);
    const measure = meant ? measureOf(`${value} ${unit ?? ''}`) : undefined;
    if (measure) return measure;
  }
  for (const event of record.events ?? []) {
    if (event.do !== 'measure' || event.target === undefined || event.target !== target) continue;
    const measure = measureOf(/^\s*[\d.]+\s*(?:mm|cm)\b/.exec(event.result ?? '')?.[0] ?? '');
    if (measure) return measure;
  }
  return undefined;
}

function measureOf(text: string): Measure | undefined {
  const read = readQuantity(text, ['length']);
  const french = read.ok ? inFrench(read.value) : undefined;
  return read.ok && french ? { french, text: { quantity: read.value } } : undefined;
}

/** Shaft of a balloon against the way to its target: as measured, or as deep as another device was there. */
function checkReach(context: SizeContext, play: Play): void {
  const deepest = new Map<string, Measure>();
  const events = inOrder(play.record);
  for (const { event } of events) {
    const french = event.depth && inFrench(event.depth);
    if (!event.depth || !french || event.across === undefined) continue;
    const known = deepest.get(event.across);
    if (!known || known.french.lt(french))
      deepest.set(event.across, { french, text: { quantity: event.depth } });
  }
  for (const at of events) {
    const { event } = at;
    const state = event.device === undefined ? undefined : play.states.get(event.device);
    const target = event.across ?? event.target;
    if (state?.details.family !== 'balloon' || target === undefined || event.part !== undefined) continue;
    const what = message('unsized.way', { device: state.key, target });
    const way = lengthMeasured(context, undefined, 'way to the target') ?? deepest.get(target);
    const shaft = shaftOf(state.details);
    if (!way || !shaft) {
      const because = shaft
        ? message('unsized.noDistance', { target })
        : message('unsized.noShaft', { what: state.key });
      skip(context, what, because, at.path);
      continue;
    }
    if (shaft.french.gte(way.french)) continue;
    say(context, [state.key, target], 'size.shaft-short', at.path, {
      device: state.label,
      shaft: shaft.text,
      target,
      way: way.text,
      short: printCm(way.french.minus(shaft.french)),
    });
  }
}
