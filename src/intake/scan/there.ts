import { decodeLabel } from '../../devices/labels/decode.js';
import type { LabelOptions } from '../../devices/labels/types.js';
import type { Tree } from '../../record/read.js';
import { isGroup, treeIn, valueAt } from '../../record/tree.js';
import type { DeviceThere } from './contribution.js';

/** What a scan is held against in a record: its devices, and the serial numbers of them, as `DI SERIAL`. */
export interface There {
  readonly devices: readonly DeviceThere[];
  readonly serials: ReadonlySet<string>;
}

/** The devices of a record, which need not be a whole one yet. */
export function devicesIn(text: string, options: LabelOptions): There {
  const list = valueAt(treeIn(text), ['devices']);
  if (!isGroup(list)) return { devices: [], serials: new Set() };
  const serials = new Set<string>();
  const devices = Object.keys(list).map((key): DeviceThere => {
    const field = (name: string): string | undefined => textAt(list, [key, name]);
    const label = field('label');
    const decoded = label === undefined ? undefined : decodeLabel(label, options);
    const [di, serial] = [decoded?.di ?? field('udi'), decoded?.serial ?? field('serial')];
    if (serial !== undefined) serials.add(`${di ?? ''} ${serial}`);
    const [kind, reference] = [field('kind'), field('reference')];
    const identified =
      ['label', 'udi', 'lot', 'serial'].some(name => field(name) !== undefined) ||
      valueAt(list, [key, 'carried']) !== undefined;
    return {
      key,
      identified,
      ...(kind !== undefined && { kind }),
      ...(reference !== undefined && { reference }),
    };
  });
  return { devices, serials };
}

function textAt(tree: Tree, path: readonly string[]): string | undefined {
  const value = valueAt(tree, path);
  return typeof value === 'string' || typeof value === 'number' ? String(value) : undefined;
}
