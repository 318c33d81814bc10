import { type Finding, finding } from '../../findings/finding.js';
import { message } from '../../findings/message.js';
import { Decimal } from '../../record/decimal.js';
import type { CaseRecord, DrugGiven } from '../../record/schema/record.js';
import { drugKey, drugsIn } from '../../trade/drugs/table.js';
import { weightOf } from '../body.js';
import {
  assessed,
  type Calculation,
  type CalculationBase,
  type Input,
  inputOf,
  notAssessed,
  source,
} from '../calculation.js';
import { input } from '../labs/measure.js';
import type { ClinicalLimits } from '../limits.js';
import { byDrugName, plainName } from '../look-up.js';
import { drugNamed } from '../named.js';
import { doseIn } from './amount.js';
import { doseIsPossible } from './doses.js';
import { byDrug, type Given } from './given.js';

/** What one agent comes to, as a part of its own limit. */
interface Share {
  readonly name: string;
  readonly path: string;
  readonly share: Decimal;
  readonly source: string;
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

/** Into tissue; epidural, perineural and intra-articular have no route of their own and are written as other. */
const tissue: ReadonlySet<DrugGiven['route']> = new Set([
  'local infiltration',
  'subcutaneous',
  'into the tract',
  'other',
]);

/** A local anaesthetic put into tissue counts, whatever it was given for. */
const isInfiltrated = ({ drug, route }: DrugGiven) =>
  tissue.has(route) &&
  drugsIn(drug.text).some(({ families }) => families.some(family => family.endsWith('local anaesthetic')));

/** Local anaesthetics by weight against their limits: each by itself, and their shares of their limits added. */
export function localAnaesthetics(
  record: CaseRecord,
  given: readonly Given[],
  limits: ClinicalLimits['drugs'],
): { calculations: Calculation[]; findings: Finding[] } {
  const used = given.filter(({ drug }) => drug.for === 'local anaesthesia' || isInfiltrated(drug));
  const calculations: Calculation[] = [];
  const findings: Finding[] = [];
  const shares: Share[] = [];
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
      what: message('calculation.local-anaesthetic', { drug: drugNamed(name) }),
      rule: message('rule.local-anaesthetic'),
      basis: limit
        ? message('basis.per-weight', {
            drug: drugNamed(limit.name),
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
    const weight = weightOf(record);
    if ('why' in weight) {
      calculations.push(notAssessed(base, weight.why, inputs));
      continue;
    }
    const refused = of.find(({ drug }) => !doseIsPossible(record, drug));
    if (refused) {
      const why = message('why.implausible', { value: { quantity: refused.drug.dose } });
      calculations.push(notAssessed(base, why, inputs));
      continue;
    }
    const total = of
      .map(({ drug }) => doseIn(drug, 'mg'))
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
    shares.push({ name, path: first.path, share: ratio.div(limit.entry.value), source: limit.entry.source });
    if (ratio.gt(limit.entry.value))
      findings.push(
        finding(
          'clinical.local-anaesthetic',
          first.path,
          {
            what: message('anaesthetic.alone', {
              drug: name,
              dose: { number: total.toString() },
              perKg: { number: perKg },
              limit: { number: limit.entry.value },
            }),
          },
          { basis: limit.entry.source },
        ),
      );
  }
  return { calculations, findings: [...findings, ...together(shares)] };
}

/** Toxicity adds up: each agent counts by its share of its own limit. One that is over by itself has been said. */
function together(shares: readonly Share[]): Finding[] {
  const sum = shares.reduce((a, { share }) => a.plus(share), new Decimal(0));
  if (shares.length < 2 || sum.lte(1) || shares.some(({ share }) => share.gt(1))) return [];
  const drugs = shares.map(({ name, share }) =>
    message('anaesthetic.share', { drug: name, percent: { number: share.times(100).toFixed(0) } }),
  );
  const percent = { number: sum.times(100).toFixed(0) };
  const what = message('anaesthetic.together', { drugs: { list: drugs }, percent });
  const basis = [...new Set(shares.map(({ source: whose }) => whose))].join('; ');
  return [finding('clinical.local-anaesthetic', shares[0]?.path ?? 'drugs', { what }, { basis })];
}
