import { message, type Param } from '../../findings/message.js';
import type { Decimal } from '../../record/decimal.js';
import type { Quantity } from '../../record/quantity.js';
import type { DeviceDetails } from '../types.js';
import { inchesInFrench, inFrench, mmInFrench, printMm } from './calibre.js';
import { needleRow } from './needles.js';

/** A measure of a device in French (thirds of a millimetre), and the words it came from. */
export interface Measure {
  readonly french: Decimal;
  /** `7 Fr`, `0.035 in`, `18 G, regular wall`. */
  readonly text: Param;
}

const measured = (quantity: Quantity | undefined): Measure | undefined => {
  const french = quantity && inFrench(quantity);
  return french && { french, text: { quantity } };
};

const isCalibre = (quantity: Quantity | undefined): boolean => quantity?.code === '[Ch]';

/** Families whose plain size is what they open to, not how thick they are on the way in. */
const opensUp: ReadonlySet<DeviceDetails['family']> = new Set([
  'balloon',
  'stent',
  'filter',
  'retrieval',
  'embolic',
  'closure',
  'anchor',
]);

/**
 * What must pass: the outer diameter of a device on its way in. A sheath's French is its lumen, so its outside is
 * unknown; of balloons, stents and filters only a French number (or a diameter beside the size) is the way in.
 */
export function outerOf(device: DeviceDetails): Measure | undefined {
  const { entry, family, size } = device;
  if (family === 'sheath' || family === 'embolic') return undefined;
  if (!opensUp.has(family)) return measured(entry.diameter ?? size?.diameter);
  if (entry.diameter && size) return measured(entry.diameter);
  const calibre = [entry.diameter, size?.diameter].find(isCalibre);
  return measured(calibre);
}

/** Largest wire that passes through it, as stated, or by the needle chart. */
export function wireLumenOf(device: DeviceDetails): Measure | undefined {
  return measured(device.entry.takesWire);
}

/** What passes through it: as stated, else a sheath's French, else the lumen that takes its largest wire. */
export function lumenOf(device: DeviceDetails): Measure | undefined {
  const { entry, family, size } = device;
  const stated = measured(entry.takes);
  if (stated) return stated;
  if (family === 'sheath') {
    const calibre = [size?.diameter, entry.diameter].find(isCalibre);
    if (calibre) return measured(calibre);
  }
  return measured(entry.takesWire);
}

/** Whether a wire passes a needle whose largest wire is not stated. */
export type NeedlePassage =
  | { readonly passes: true }
  | { readonly passes: false; readonly limit: Measure }
  | { readonly passes: 'depends on the wall' | 'gauge not in the chart' };

/** Judges a wire against the needle chart: regular wall surely, thin wall where the description says so. */
export function needlePassage(needle: DeviceDetails, wire: Measure): NeedlePassage {
  const gauge = [needle.size?.diameter, needle.entry.diameter].find(q => q?.code === '{gauge}');
  const row = gauge && needleRow(gauge.value);
  if (!row) return { passes: 'gauge not in the chart' };
  const regular: Measure = {
    french: mmInFrench(row.innerRegular),
    text: message('size.regularWall', { gauge: row.gauge }),
  };
  if (wire.french.lte(regular.french)) return { passes: true };
  const thin: Measure | undefined =
    row.thinWallWire === undefined
      ? undefined
      : { french: inchesInFrench(row.thinWallWire), text: message('size.thinWall', { gauge: row.gauge }) };
  if (!thin || wire.french.gt(thin.french)) return { passes: false, limit: thin ?? regular };
  if (needle.traits.has('thin wall')) return { passes: true };
  if (needle.traits.has('regular wall')) return { passes: false, limit: regular };
  return { passes: 'depends on the wall' };
}

/** What a balloon or stent opens to: diameter and length of the working part. */
export function nominalOf(device: DeviceDetails): { diameter?: Measure; length?: Measure } {
  if (device.family !== 'balloon' && device.family !== 'stent' && device.family !== 'filter') return {};
  const { size } = device;
  const diameter = size && !isCalibre(size.diameter) ? measured(size.diameter) : undefined;
  const length = measured(size?.length ?? (device.family === 'stent' ? device.entry.length : undefined));
  return { ...(diameter && { diameter }), ...(length && { length }) };
}

/**
 * How long it is from hub to tip, as far as it lies on a wire. Of a stent on a delivery system the shaft counts, not
 * the stent; a stent sized in French has no shaft of its own.
 */
export function shaftOf(device: DeviceDetails): Measure | undefined {
  const { entry, family, size } = device;
  if (family === 'embolic' || family === 'anchor') return undefined;
  if (family !== 'stent') return measured(device.length);
  return measured(isCalibre(size?.diameter) ? (entry.length ?? size?.length) : size?.length && entry.length);
}

/** `0.035 in (0.889 mm)`. */
export const withMm = ({ text, french }: Measure): Param =>
  message('size.withMm', { size: text, mm: printMm(french) });
