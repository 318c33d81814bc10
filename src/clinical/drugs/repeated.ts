import { type Finding, finding } from '../../findings/finding.js';
import { Decimal } from '../../record/decimal.js';
import type { CaseRecord, DrugGiven } from '../../record/schema/record.js';
import { DOSES_BASIS, dosingsOf } from '../../trade/drugs/doses/table.js';
import { drugsIn } from '../../trade/drugs/table.js';
import { isChild } from '../age.js';
import { weightOf } from '../body.js';
import { doseIn } from './amount.js';
import { byDrug, type Given } from './given.js';

/** Hours within which a second full dose is none of two: drugs that are not given to effect. From memory. */
const intervals: Readonly<Record<string, number>> = {
  paracetamol: 4,
  metamizole: 4,
  ibuprofen: 6,
  diclofenac: 6,
  ketorolac: 4,
  parecoxib: 6,
  enoxaparin: 8,
  dalteparin: 12,
  tinzaparin: 12,
  gentamicin: 12,
  vancomycin: 6,
  ceftriaxone: 12,
  cefazolin: 2,
  cefuroxime: 2,
  ciprofloxacin: 6,
  metronidazole: 4,
  ondansetron: 3,
  dexamethasone: 6,
};

/** Doses of one drug that come too near to one another and together are more than one dose may be. */
export function repeatedDoses(record: CaseRecord, given: readonly Given[]): Finding[] {
  const weight = weightOf(record);
  return byDrug(given, ({ drug }) => drugsIn(drug.text)[0]?.name ?? drug.text).flatMap(group => {
    const [first] = group;
    const name = first ? drugsIn(first.drug.drug.text)[0]?.name : undefined;
    const hours = name === undefined ? undefined : intervals[name];
    if (!first || name === undefined || hours === undefined || group.length < 2) return [];
    const ordered = [...group].sort((a, b) => a.drug.at.epoch - b.drug.at.epoch);
    const row = dosingsOf(name).find(({ routes }) => routes.some(one => one === first.drug.route));
    if (!row) return [];
    const perKg = isChild(record) && 'kg' in weight ? row.child?.value.times(weight.kg) : undefined;
    const most = perKg?.lt(row.most.value) ? perKg : row.most.value;
    for (const [i, later] of ordered.entries()) {
      const near = ordered.slice(0, i + 1).filter(({ drug }) => hoursApart(drug, later.drug) < hours);
      const doses = near.map(({ drug }) => doseIn(drug, row.unit));
      const sum = doses.reduce((a, b) => (a && b ? a.plus(b) : undefined), new Decimal(0));
      if (near.length < 2 || !sum || sum.lte(most.times('1.25'))) continue;
      const { shown } = row.most;
      const unit = row.unit === '[iU]' ? 'IU' : row.unit;
      return [
        finding(
          'clinical.drug-dose-repeated',
          `${later.path}.dose`,
          {
            drug: later.drug.drug.text,
            sum: { quantity: { value: sum.toString(), unit, code: row.unit } },
            hours: { number: String(hours) },
            limit: perKg?.lt(row.most.value)
              ? { quantity: { value: most.toDecimalPlaces(0).toString(), unit, code: row.unit } }
              : { quantity: shown },
          },
          { basis: DOSES_BASIS },
        ),
      ];
    }
    return [];
  });
}

const hoursApart = (a: DrugGiven, b: DrugGiven) => Math.abs(a.at.epoch - b.at.epoch) / 3_600_000;

/** Fillers, flushes and media: what an event injects without a line among the drugs. */
const plain =
  /\b(?:saline|sodium chloride|water|glucose|dextrose|air|carbon dioxide|CO2|blood|oil|lock|flush|heparini[sz]ed|sealant|thrombin|glue|foam|cement)\b/i;

/** A drug that an event injects, and the drugs of the case do not have. */
export function unsaidDrugs(record: CaseRecord, given: readonly Given[]): Finding[] {
  if (record.drugs === undefined) return [];
  const known = new Set(given.flatMap(({ drug }) => drugsIn(drug.drug.text).map(({ name }) => name)));
  const said = new Set<string>();
  return (record.events ?? []).flatMap((event, i) => {
    if (event.do !== 'inject' || event.agent === undefined || plain.test(event.agent)) return [];
    const missing = drugsIn(event.agent).find(
      ({ name, element }) =>
        element === undefined && dosingsOf(name).length > 0 && !known.has(name) && !said.has(name),
    );
    if (!missing) return [];
    said.add(missing.name);
    return [
      finding('clinical.drug-unsaid', `events[${i}].agent`, { agent: event.agent, drug: missing.name }),
    ];
  });
}
