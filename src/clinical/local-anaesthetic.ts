import { Decimal } from 'decimal.js';
import { type Finding, finding } from '../findings/finding.js';
import { printQuantity } from '../record/quantity.js';
import type { CaseRecord, DrugGiven } from '../record/schema/record.js';
import { assessed, type Calculation, type CalculationBase, type Input, notAssessed } from './calculation.js';
import { byDrug, type Given } from './given.js';
import type { ClinicalLimits } from './limits.js';
import { lookUpWithin, plainName } from './look-up.js';
import { amount, milligrams, weightOf } from './measure.js';

/** mg of a dose: as written, or volume times strength (1 % is 10 mg/mL). Undefined when that is not recorded. */
export function localDose(drug: DrugGiven): Decimal | undefined {
  const mass = milligrams(drug.dose);
  if (mass) return mass;
  const volume = amount(drug.dose, 'mL');
  const strength = /^(\d+(?:\.\d+)?)\s*(%|mg\/mL)(?![a-z])/i.exec(drug.strength?.trim() ?? '');
  if (!volume || !strength) return undefined;
  return volume.times(strength[1] ?? 0).times(strength[2] === '%' ? 10 : 1);
}

const withAdrenaline = (drug: DrugGiven) =>
  /adrenalin|epinephrin/i.test(`${drug.drug.text} ${drug.strength ?? ''}`) &&
  !/without/i.test(`${drug.drug.text} ${drug.strength ?? ''}`);

/** Local anaesthetics by weight against the table of the site; different ones are not added up. */
export function localAnaesthetics(
  record: CaseRecord,
  given: readonly Given[],
  limits: ClinicalLimits['drugs'],
): { calculations: Calculation[]; findings: Finding[] } {
  const used = given.filter(one => one.drug.for === 'local anaesthesia');
  const calculations: Calculation[] = [];
  const findings: Finding[] = [];
  for (const of of byDrug(used, drug => plainName(drug.drug.text))) {
    const [first] = of;
    if (!first) continue;
    const name = first.drug.drug.text;
    const mixed = of.every(({ drug }) => withAdrenaline(drug)) && !/adrenalin|epinephrin/i.test(name);
    const limit = lookUpWithin(limits.localAnaesthetic, mixed ? `${name} with adrenaline` : name);
    const base: CalculationBase = {
      key: `local-anaesthetic/${plainName(name)}`,
      group: 'drugs',
      what: `${name} by weight`,
      rule: 'mg ÷ kg; 1 % is 10 mg/mL',
      basis: limit
        ? `arithmetic; limit for ${limit.name} ${limit.entry.value} mg/kg: ${limit.entry.source}`
        : 'arithmetic; no limit is set',
    };
    const inputs: Input[] = of.map(({ drug, path }) => ({
      name: drug.at.clock,
      value: `${printQuantity(drug.dose)}${drug.strength ? ` of ${drug.strength}` : ''}`,
      path,
    }));
    if (record.patient.weight)
      inputs.push({ name: 'Weight', value: printQuantity(record.patient.weight), path: 'patient.weight' });
    const weight = weightOf(record.patient.weight);
    if ('why' in weight) {
      calculations.push(notAssessed(base, weight.why, inputs));
      continue;
    }
    const doses = of.map(({ drug }) => localDose(drug));
    const total = doses.reduce(
      (a: Decimal | undefined, b) => (a && b ? a.plus(b) : undefined),
      new Decimal(0),
    );
    if (!total) {
      calculations.push(notAssessed(base, 'a dose has no mass: give its strength, such as 1 %', inputs));
      continue;
    }
    const ratio = total.div(weight.kg);
    const perKg = ratio.toFixed(2);
    calculations.push(
      assessed(
        base,
        { value: perKg, unit: 'mg/kg', code: 'mg/kg' },
        inputs,
        `${perKg} mg/kg (${total.toString()} mg)`,
      ),
    );
    if (limit && ratio.gt(limit.entry.value))
      findings.push(
        finding(
          'clinical.local-anaesthetic',
          first.path,
          { drug: name, dose: total.toString(), perKg, limit: limit.entry.value },
          { basis: limit.entry.source },
        ),
      );
  }
  return { calculations, findings };
}
