import { readSize, type Size } from '../../record/quantity.js';
import type { DeviceDetails } from '../types.js';
import { inFrench } from './calibre.js';
import type { Measure } from './geometry.js';

/** Rows whose size is the diameter of hard or little yielding grains; gelatin and hydrogel are pressed thinner. */
const grains: ReadonlySet<string> = new Set([
  'particles',
  'microspheres',
  'drug-eluting beads',
  'radioactive microspheres',
]);

/** `900-1200 µm`, `900 to 1200 microns`, `900 µm`. */
const WRITTEN =
  /(\d+(?:\.\d+)?)(?:\s*(?:[-–]|to)\s*(\d+(?:\.\d+)?))?\s*(?:[uµμ]m|microns?|micromet(?:re|er)s?)\b/giu;

/** The smallest grain of particles, by their size or the only size in their description. */
export function smallestGrain(device: DeviceDetails): Measure | undefined {
  if (device.row === undefined || !grains.has(device.row)) return undefined;
  const diameter = (device.size ?? described(device.description))?.diameter;
  const french = diameter?.code === 'um' ? inFrench(diameter) : undefined;
  return diameter && french && { french, text: { quantity: diameter } };
}

function described(text: string | undefined): Size | undefined {
  const [only, ...others] = [...(text ?? '').matchAll(WRITTEN)];
  if (!only || others.length > 0) return undefined;
  const read = readSize(`${only[1]}${only[2] === undefined ? '' : `-${only[2]}`} µm`);
  return read.ok ? read.value : undefined;
}
