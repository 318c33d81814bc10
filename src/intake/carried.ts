import { sameDeviceKind } from '../trade/devices/table.js';
import type { Contribution, GivenValue, SourceKind, Typed } from './contribution.js';
import { deviceKey } from './device-key.js';

/** Sources that tell of devices from before, the one that knows them best first. */
const KNOW: readonly SourceKind[] = ['register', 'earlier case', 'order'];

/** Fields of one device that came from before. */
interface Carried {
  readonly key: string;
  readonly fields: ReadonlyMap<string, Typed>;
}

/**
 * Devices from before, each once: what two sources have of one device is taken from the one that knows it best, and two
 * devices that were given the same key are parted. Without this, two drains of two sources would become one.
 */
export function carriedOnce(contributions: readonly Contribution[]): Contribution[] {
  const known: Carried[] = [];
  const used = new Set<string>();
  const made = new Map<Contribution, Contribution>();
  for (const from of KNOW)
    for (const one of contributions.filter(other => other.from === from)) {
      const before = [...known];
      const values = [...carriedIn(one).values()].flatMap((device): GivenValue[] => {
        if (before.some(other => isSame(other, device))) return [];
        const key = used.has(device.key) ? deviceKey(device.key, used) : device.key;
        used.add(key);
        known.push(device);
        return one.values.flatMap(value =>
          isOf(value, device.key) ? [{ ...value, path: ['devices', key, ...value.path.slice(2)] }] : [],
        );
      });
      made.set(one, {
        ...one,
        values: [...one.values.filter(({ path }) => path[0] !== 'devices'), ...values],
      });
    }
  return contributions.map(one => made.get(one) ?? one);
}

const isOf = ({ path }: GivenValue, key: string): boolean => path[0] === 'devices' && path[1] === key;

function carriedIn({ values }: Contribution): Map<string, Carried> {
  const devices = new Map<string, { key: string; fields: Map<string, Typed> }>();
  for (const { path, value } of values) {
    const [list, key, field] = path;
    if (list !== 'devices' || key === undefined || field === undefined) continue;
    const device = devices.get(key) ?? { key, fields: new Map<string, Typed>() };
    device.fields.set(field, value);
    devices.set(key, device);
  }
  return devices;
}

const textOf = ({ fields }: Carried, name: string): string | undefined => {
  const value = fields.get(name);
  return typeof value === 'string' ? value : undefined;
};

/** One device by its serial or lot number, or of one kind from one day with nothing that speaks against it. */
function isSame(a: Carried, b: Carried): boolean {
  const both = (name: string) => [textOf(a, name), textOf(b, name)] as const;
  const agree = (name: string) => both(name)[0] !== undefined && both(name)[0] === both(name)[1];
  const differ = (name: string) => both(name).every(text => text !== undefined) && !agree(name);
  if (['udi', 'serial', 'lot', 'label'].some(differ)) return false;
  if (agree('label') || (agree('udi') && (agree('serial') || agree('lot')))) return true;
  const [kindA, kindB] = both('kind');
  if (kindA === undefined || kindB === undefined || !sameDeviceKind(kindA, kindB)) return false;
  const [dayA, dayB] = [dayOf(a), dayOf(b)];
  return dayA !== undefined && dayA === dayB;
}

function dayOf({ fields }: Carried): string | undefined {
  const carried = fields.get('carried');
  const date =
    typeof carried === 'object' && !Array.isArray(carried)
      ? (carried as { readonly date?: Typed }).date
      : undefined;
  return typeof date === 'string' ? date : undefined;
}
