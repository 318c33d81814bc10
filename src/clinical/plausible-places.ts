import type { Finding } from '../findings/finding.js';
import { entriesOf } from '../record/entries.js';
import type { Quantity } from '../record/quantity.js';
import type { CaseEvent, CaseRecord } from '../record/schema/record.js';
import { widest } from '../trade/calibres.js';
import { deviceTable } from '../trade/devices/table.js';
import { strongestOf } from '../trade/drugs/strengths.js';
import { drugsIn } from '../trade/drugs/table.js';
import { strengthOf } from './drugs/amount.js';
import { isVessel } from './drugs/vessels.js';
import { type Range, refused, within } from './plausible.js';

/** Most at once, mL: what a syringe or a pump gives, what a cavity holds. Common practice, no source. */
const volumes: Partial<Record<CaseEvent['do'], string>> = {
  inject: '1500',
  flush: '1500',
  aspirate: '12000',
  sample: '5000',
  lock: '50',
  inflate: '2000',
};
/** A flush of a line in a vessel, mL. */
const LINE = '60';
/** A retention balloon of a tube or catheter, mL. */
const BALLOON = '60';
/** Wires and coils by their inches: 0.006 to 0.052 in, with room. */
const INCHES: Range = { unit: '[in_i]', least: '0.005', most: '0.1' };
/** Blood that a person can lose and leave the room, mL. */
const LOSS: Range = { unit: 'mL', least: '0', most: '15000' };

const judged = (what: string, value: Quantity | undefined, range: Range, path: string): Finding[] =>
  value && within(value, [range]) === false ? [refused(what, value, [range], path)] : [];

const range = (unit: string, most: string, least = '0'): Range => ({ unit, least, most });

const thin = /\b(?:wire|guidewire|microwire|coils?)\b/i;
const tube = /\b(?:gastrostomy|jejunostomy|button|bladder catheter|nephrostomy|tube)\b/i;

/** What an event may give or take at once, by its verb and its device. */
function mostAtOnce(record: CaseRecord, { do: verb, device }: CaseEvent): string | undefined {
  if (verb === 'flush' && isVessel(record, device)) return LINE;
  const kind = device === undefined ? '' : (record.devices?.[device]?.kind ?? '');
  return verb === 'inflate' && tube.test(kind) ? BALLOON : volumes[verb];
}

/** Widths of targets, volumes of events, blood loss and strengths that cannot be right. */
export function unlikelyPlaces(record: CaseRecord): Finding[] {
  const loss = record.outcome?.bloodLoss;
  return [
    ...Object.entries(record.targets ?? {}).flatMap(([key, { what, lesion, diameter }]) => {
      const most = widest(what.text, lesion?.text);
      return most === undefined
        ? []
        : judged(what.text, diameter, range('mm', most, '0.3'), `targets.${key}.diameter`);
    }),
    ...(record.events ?? []).flatMap((event, i) => {
      const most = mostAtOnce(record, event);
      const what = event.agent ?? event.do;
      return most === undefined ? [] : judged(what, event.volume, range('mL', most), `events[${i}].volume`);
    }),
    ...Object.entries(record.devices ?? {}).flatMap(([key, { kind, diameter }]) =>
      diameter?.code === '[in_i]' && thin.test(`${kind} ${deviceTable.find(kind)?.row.name ?? ''}`)
        ? judged(kind, diameter, INCHES, `devices.${key}.diameter`)
        : [],
    ),
    ...(typeof loss === 'object' ? judged('blood', loss, LOSS, 'outcome.bloodLoss') : []),
    ...entriesOf(record.drugs).flatMap(({ drug, strength }, i) => {
      const read = strength === undefined ? undefined : strengthOf(strength);
      const named = drugsIn(drug.text).filter(({ name }) => name !== 'adrenaline');
      const most = strongestOf((named[0] ?? drugsIn(drug.text)[0])?.name ?? '');
      if (read?.unit !== 'mg' || most === undefined) return [];
      const value = { value: read.perMl.toString(), unit: 'mg/mL', code: 'mg/mL' };
      return judged(drug.text, value, range('mg/mL', most), `drugs[${i}].strength`);
    }),
  ];
}
