import { described } from '../../register/facts.js';
import type { Register } from '../../register/store/register.js';
import type { Use } from '../../register/use.js';
import type { EarlierDevice } from '../../registry/entry/earlier.js';
import type { OpenedCase } from '../open-case.js';

/**
 * What the register knows of the devices that a case carried in, by their key: of those alone that it took for one device
 * by an exact link, or by the word of a person.
 */
export async function earlierOf(
  { record, assessment }: Pick<OpenedCase, 'record' | 'assessment'>,
  register: Pick<Register, 'use'>,
): Promise<ReadonlyMap<string, EarlierDevice>> {
  const known = new Map<string, EarlierDevice>();
  if (!record || !assessment) return known;
  for (const { key, carried } of assessment.devices.values()) {
    if (!carried) continue;
    const name = `${record.case.id}/${key}`;
    const use = await register.use(name);
    // A use of its own name was first seen in this very case.
    if (use && use.id !== name) known.set(key, earlierDevice(use));
  }
  return known;
}

const KEPT = new Set<string>([...described, 'placed'].filter(name => name !== 'name' && name !== 'kind'));

function earlierDevice(use: Use): EarlierDevice {
  const placing = use.events.find(({ kind }) => kind === 'inserted');
  // A case of another numbering system is named with that.
  const own = placing !== undefined && !placing.case.includes('|');
  const kept = Object.fromEntries(Object.entries(use).filter(([name]) => KEPT.has(name)));
  return { ...kept, device: use.device, ...(own && { placedIn: placing.case }) };
}
