import { type Finding, finding } from '../../findings/finding.js';
import { message } from '../../findings/message.js';
import { Decimal } from '../../record/decimal.js';
import type { CaseRecord, DrugGiven } from '../../record/schema/record.js';
import { drugKey, drugsIn } from '../../trade/drugs/table.js';
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
import { byDrugName, plainName } from '../look-up.js';
import { doseIsPossible } from '../plausible.js';
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

const names = (text: string) => drugsIn(text).map(({ name }) => name);

const withAdrenaline = ({ drug, strength }: DrugGiven) =>
  [...names(drug.text), ...names(strength ?? '')].includes('adrenaline');

/** The anaesthetic itself, under every name of it, with adrenaline or without. */
const agentOf = (text: string) =>
  drugKey(
    names(text)
      .filter(name => name !== 'adrenaline')
      .join(' + ') || text,
  );

/** Local anaesthetics by weight against the table of the site: each by itself, and their shares of their limits added. */
export function localAnaesthetics(
  record: CaseRecord,
  given: readonly Given[],
  limits: ClinicalLimits['drugs'],
): { calculations: Calculation[]; findings: Finding[] } {
  const used = given.filter(one => one.drug.for === 'local anaesthesia');
  const calculations: Calculation[] = [];
  const findings: Finding[] = [];
  const shares: { readonly name: string; readonly path: string; readonly share: Decimal }[] = [];
  for (const of of byDrug(used, drug => agentOf(drug.drug.text))) {
    const [first] = of;
    if (!first) continue;
    const name = first.drug.drug.text;
    const agent = agentOf(name);
    const mixed = of.every(({ drug }) => withAdrenaline(drug));
    const limit =
      (mixed ? byDrugName(limits.localAnaesthetic, `${agent} with adrenaline`) : undefined) ??
      byDrugName(limits.localAnaesthetic, agent);
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
    const refused = of.find(({ drug }) => !doseIsPossible(drug));
    if (refused) {
      const why = message('why.implausible', { value: { quantity: refused.drug.dose } });
      calculations.push(notAssessed(base, why, inputs));
      continue;
    }
    const total = of
      .map(({ drug }) => localDose(drug))
      .reduce((a: Decimal | undefined, b) => (a && b ? a.plus(b) : undefined), new Decimal(0));
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
    if (!limit) continue;
    shares.push({ name, path: first.path, share: ratio.div(limit.entry.value) });
    if (ratio.gt(limit.entry.value))
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
  return { calculations, findings: [...findings, ...together(shares)] };
}

/** Toxicity adds up: each agent counts by its share of its own limit. One that is over by itself has been said. */
function together(
  shares: readonly { readonly name: string; readonly path: string; readonly share: Decimal }[],
): Finding[] {
  const sum = shares.reduce((a, { share }) => a.plus(share), new Decimal(0));
  if (shares.length < 2 || sum.lte(1) || shares.some(({ share }) => share.gt(1))) return [];
  const drugs = shares.map(({ name, share }) => `${name} ${share.times(100).toFixed(0)} %`).join(', ');
  const percent = sum.times(100).toFixed(0);
  return [finding('clinical.local-anaesthetic-sum', shares[0]?.path ?? 'drugs', { drugs, percent })];
}
