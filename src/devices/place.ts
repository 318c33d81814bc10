import type { CaseRecord } from '../record/schema/record.js';
import { wordsOf } from '../trade/words.js';
import { eventsOf } from './by-device.js';
import type { DeviceDetails, TallyEntry } from './types.js';

export type DeviceSide = 'left' | 'right' | 'both' | 'midline';

/** Where a device is or was, as far as the record tells it. */
export function placeOf(
  record: CaseRecord,
  details: DeviceDetails,
  row: TallyEntry | undefined,
): { readonly site?: string; readonly side?: DeviceSide } {
  const events = eventsOf(record, details.key);
  const { carried } = details.entry;
  const site = row?.site?.text ?? carried?.site?.text ?? events.find(({ into }) => into)?.into?.text;
  const targets = events.flatMap(({ target, across }) => [target, across]).flatMap(key => key ?? []);
  const ofTargets = new Set(targets.flatMap(key => record.targets?.[key]?.side ?? []));
  const said = row?.left?.entry.side ?? carried?.side ?? sideIn(site) ?? sideIn(carried?.site?.text);
  const [only] = ofTargets.size === 1 ? ofTargets : [];
  const side = said ?? only;
  return { ...(site !== undefined && { site }), ...(side !== undefined && { side }) };
}

/** The side that a site names: one alone, or both. */
function sideIn(site: string | undefined): DeviceSide | undefined {
  const words = wordsOf(site ?? '');
  const [left, right] = [words.includes('left'), words.includes('right')];
  if (words.includes('bilateral') || (left && right)) return 'both';
  return left ? 'left' : right ? 'right' : undefined;
}
