import { Decimal } from 'decimal.js';
import { type Finding, finding } from '../../findings/finding.js';
import { message } from '../../findings/message.js';
import type { CaseRecord, DrugGiven } from '../../record/schema/record.js';
import {
  assessed,
  type Calculation,
  type CalculationBase,
  type Input,
  inputOf,
  notAssessed,
  source,
} from '../calculation.js';
import { amount, input, milligrams, weightOf } from '../labs/measure.js';
import type { ClinicalLimits } from '../limits.js';
import { lookUpWithin, plainName } from '../look-up.js';
import { byDrug, type Given } from './given.js';

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
      what: message('calculation.local-anaesthetic', { drug: name }),
      rule: message('rule.local-anaesthetic'),
      basis: limit
        ? message('basis.per-weight', {
            drug: limit.name,
            limit: { number: limit.entry.value },
            source: source(limit.entry.source),
          })
        : message('basis.no-limit'),
    };
    const inputs: Input[] = of.map(({ drug: { at, dose, strength }, path }) =>
      inputOf(
        at.clock,
        strength ? message('value.solution', { amount: { quantity: dose }, strength }) : { quantity: dose },
        path,
      ),
    );
    if (record.patient.weight)
      inputs.push(input(message('input.weight'), record.patient.weight, 'patient.weight'));
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
      calculations.push(notAssessed(base, message('why.no-mass'), inputs));
      continue;
    }
    const ratio = total.div(weight.kg);
    const perKg = ratio.toFixed(2);
    const quantity = { value: perKg, unit: 'mg/kg', code: 'mg/kg' };
    calculations.push(
      assessed(
        base,
        quantity,
        inputs,
        message('result.per-weight', {
          ratio: { quantity },
          total: { quantity: { value: total.toString(), unit: 'mg', code: 'mg' } },
        }),
      ),
    );
    if (limit && ratio.gt(limit.entry.value))
      findings.push(
        finding(
          'clinical.local-anaesthetic',
          first.path,
          {
            drug: name,
            dose: { number: total.toString() },
            perKg: { number: perKg },
            limit: { number: limit.entry.value },
          },
          { basis: limit.entry.source },
        ),
      );
  }
  return { calculations, findings };
}
