import { type Finding, finding } from '../../findings/finding.js';
import { entriesOf } from '../../record/entries.js';
import type { CaseRecord } from '../../record/schema/record.js';
import { drugKey } from '../../trade/drugs/table.js';

/** The same line twice: drug, contrast or complication with the same values at the same time. */
export function checkEntered(record: CaseRecord): Finding[] {
  const { drugs, contrast, complications } = record;
  return [
    ...twice(
      'drugs',
      entriesOf(drugs),
      one => [drugKey(one.drug.text), one.dose.value, one.dose.code, one.route, one.at.epoch, one.strength],
      one => one.drug.text,
    ),
    ...twice(
      'contrast',
      entriesOf(contrast),
      one =>
        one.at
          ? [drugKey(one.agent.text), one.volume.value, one.volume.code, one.route, one.at.epoch]
          : undefined,
      one => one.agent.text,
    ),
    ...twice(
      'complications',
      entriesOf(complications),
      one => (one.at ? [one.what.text.toLowerCase(), one.at.iso, one.device, one.target] : undefined),
      one => one.what.text,
    ),
  ];
}

function twice<T>(
  field: string,
  list: readonly T[],
  valuesOf: (one: T) => readonly unknown[] | undefined,
  nameOf: (one: T) => string,
): Finding[] {
  const seen = new Map<string, number>();
  return list.flatMap((one, i) => {
    const values = valuesOf(one);
    if (!values) return [];
    const id = JSON.stringify(values);
    const first = seen.get(id);
    if (first === undefined) {
      seen.set(id, i);
      return [];
    }
    return [
      finding('clinical.entered-twice', `${field}[${i}]`, { what: nameOf(one), first: `${field}[${first}]` }),
    ];
  });
}
