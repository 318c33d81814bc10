import { type Finding, finding } from '../../findings/finding.js';
import { type Message, message } from '../../findings/message.js';
import { Decimal } from '../../record/decimal.js';
import type { CaseRecord } from '../../record/schema/record.js';
import { weightOf } from '../body.js';
import {
  assessed,
  type Calculation,
  type CalculationBase,
  type Input,
  inputOf,
  notAssessed,
  told,
} from '../calculation.js';
import { hoursBetween, type LabValue, labsAfter, labsBefore, lastBefore } from '../labs/labs.js';
import { amount, input } from '../labs/measure.js';
import { isPossible } from '../plausible.js';
import { type AkiStage, akiStage, creatinineMicromol, urineStage } from './equations.js';

const KDIGO = 'KDIGO Acute Kidney Injury 2012, table 2';

type LabInput =
  | 'creatinine'
  | 'creatinine-before'
  | 'creatinine-after'
  | 'cystatin'
  | 'haemoglobin-before'
  | 'haemoglobin-after';

/** A laboratory value as an input of a calculation. */
export const labInput = (name: LabInput, lab: LabValue): Input =>
  input(message(`input.${name}`, { when: { when: lab.at } }), lab.quantity, lab.path);

/**
 * Injury after the case by creatinine: each value after it against the last one before it and every one since. A value
 * whose day alone is known counts only if the stage is the same at either end of that day.
 */
export function injury(record: CaseRecord): { calculations: Calculation[]; findings: Finding[] } {
  const before = lastBefore(record, 'creatinine');
  const after = labsAfter(record, 'creatinine');
  if (after.length === 0) return { calculations: [], findings: [] };
  const base: CalculationBase = {
    key: 'kidney-injury',
    group: 'kidney',
    what: message('calculation.kidney-injury'),
    rule: message('rule.kidney-injury'),
    basis: KDIGO,
  };
  const inputs = [
    ...(before ? [labInput('creatinine-before', before)] : []),
    ...after.map(lab => labInput('creatinine-after', lab)),
  ];
  const fail = (why: Message) => ({ calculations: [notAssessed(base, why, inputs)], findings: [] });
  if (!before) return fail(message('why.no-creatinine'));
  const series = [before, ...after];
  const refused = series.find(lab => !isPossible('creatinine', lab.quantity));
  if (refused) return fail(message('why.implausible', { value: { quantity: refused.quantity } }));
  if (series.some(lab => !creatinineMicromol(lab.quantity)?.gt(0)))
    return fail(message('why.creatinine-unit'));
  const stages: AkiStage[] = [];
  for (const [place, later] of series.entries())
    for (const earlier of series.slice(0, place)) {
      const { least, most } = hoursBetween(earlier.at, later.at);
      const values = [earlier, later].map(lab => creatinineMicromol(lab.quantity) ?? new Decimal(0));
      const [from, to] = values;
      if (!from || !to) continue;
      const [soon, late] = [akiStage(from, to, least), akiStage(from, to, most)];
      if (soon !== late) return fail(message('why.times-of-day'));
      if (soon !== undefined) stages.push(soon);
    }
  if (stages.length === 0) return fail(message('why.far-apart'));
  const stage = Math.max(...stages);
  const quantity = { value: String(stage), unit: '', code: '1' };
  const text =
    stage === 0
      ? message('result.criteria-not-met')
      : message('result.stage', { n: { number: String(stage) } });
  return {
    calculations: [assessed(base, quantity, inputs, text)],
    findings:
      stage === 0
        ? []
        : [finding('clinical.kidney-injury', 'after.labs', { stage: String(stage) }, { basis: KDIGO })],
  };
}

/** Direction of creatinine in words: over the days before the case, and from the last value before to the last after. */
export function trends(record: CaseRecord): Calculation[] {
  const before = labsBefore(record, 'creatinine');
  const last = before.at(-1);
  const after = labsAfter(record, 'creatinine');
  return [...trend('before', before), ...(last && after.length > 0 ? trend('after', [last, ...after]) : [])];
}

function trend(when: 'before' | 'after', labs: readonly LabValue[]): Calculation[] {
  const [previous, last] = when === 'before' ? labs.slice(-2) : [labs[0], labs.at(-1)];
  if (!previous || !last || labs.length < 2) return [];
  const base: CalculationBase = {
    key: `creatinine-trend/${when}`,
    group: 'kidney',
    what: message(`calculation.creatinine-trend.${when}`),
    rule: message(`rule.creatinine-trend.${when}`),
    basis: message('basis.arithmetic'),
  };
  const inputs = labs.map(lab => labInput('creatinine', lab));
  const refused = [previous, last].find(lab => !isPossible('creatinine', lab.quantity));
  if (refused)
    return [notAssessed(base, message('why.implausible', { value: { quantity: refused.quantity } }), inputs)];
  const [from, to] = [creatinineMicromol(previous.quantity), creatinineMicromol(last.quantity)];
  if (!from?.gt(0) || !to?.gt(0)) return [notAssessed(base, message('why.bound'), inputs)];
  const word = to.lt(from) ? 'falling' : to.gt(from) ? 'rising' : 'unchanged';
  const percent = to.minus(from).div(from).times(100).toFixed(0);
  const change = { number: `${to.gt(from) ? '+' : ''}${percent.replace('-', '−')}` };
  const values = { from: { quantity: previous.quantity }, to: { quantity: last.quantity } };
  const text =
    word === 'unchanged'
      ? message('result.unchanged', values)
      : message(`result.${word}`, { ...values, change });
  return [told(base, text, inputs)];
}

/** mL/kg/h over each interval measured, and the stage that it amounts to where the interval is long enough. */
export function urineOutput(record: CaseRecord): Calculation[] {
  return (record.after?.urine ?? []).flatMap((entry, index): Calculation[] => {
    const span = { from: entry.from.clock, to: entry.to.clock };
    const base: CalculationBase = {
      key: `urine-output/${index + 1}`,
      group: 'kidney',
      what: message('calculation.urine-output', span),
      rule: message('rule.urine-output'),
      basis: message('basis.arithmetic'),
    };
    const hours = (entry.to.epoch - entry.from.epoch) / 3_600_000;
    const volume = amount(entry.volume, 'mL');
    const path = `after.urine[${index}]`;
    const inputs: Input[] = [
      input(message('input.volume'), entry.volume, `${path}.volume`),
      ...(record.patient.weight
        ? [input(message('input.weight'), record.patient.weight, 'patient.weight')]
        : []),
      inputOf(message('input.hours'), { number: String(Number(hours.toFixed(2))) }, `${path}.to`),
    ];
    const weight = weightOf(record);
    if ('why' in weight) return [notAssessed(base, weight.why, inputs)];
    if (hours <= 0) return [notAssessed(base, message('why.interval-empty'), inputs)];
    if (!volume) return [notAssessed(base, message('why.volume-bound'), inputs)];
    const rate = volume.div(weight.kg).div(hours);
    const quantity = { value: rate.toFixed(2), unit: 'mL/kg/h', code: 'mL/kg/h' };
    return [assessed(base, quantity, inputs), stageOf(rate, hours, span, index, inputs)];
  });
}

function stageOf(
  rate: Decimal,
  hours: number,
  span: { readonly from: string; readonly to: string },
  index: number,
  inputs: readonly Input[],
): Calculation {
  const base: CalculationBase = {
    key: `urine-stage/${index + 1}`,
    group: 'kidney',
    what: message('calculation.urine-stage', span),
    rule: message('rule.urine-stage'),
    basis: KDIGO,
  };
  const stage = urineStage(rate, hours);
  if (stage === undefined) return notAssessed(base, message('why.interval-short'), inputs);
  const quantity = { value: String(stage), unit: '', code: '1' };
  return assessed(
    base,
    quantity,
    inputs,
    stage === 0
      ? message('result.criterion-not-met')
      : message('result.stage', { n: { number: String(stage) } }),
  );
}
