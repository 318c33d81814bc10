import { Decimal } from 'decimal.js';
import { type Finding, finding } from '../findings/finding.js';
import { printQuantity } from '../record/quantity.js';
import type { CaseRecord } from '../record/schema/record.js';
import { assessed, type Calculation, type CalculationBase, type Input, notAssessed } from './calculation.js';
import { type AkiStage, akiStage, creatinineMicromol, urineStage } from './kidney-equations.js';
import { hoursBetween, type LabValue, labsAfter, labsBefore, lastBefore } from './labs.js';
import { amount, weightOf } from './measure.js';

const KDIGO = 'KDIGO Acute Kidney Injury 2012, table 2';

/** A laboratory value as an input of a calculation. */
export const labInput = (name: string, lab: LabValue): Input => ({
  name: `${name} of ${lab.at.text}`,
  value: printQuantity(lab.quantity),
  path: lab.path,
});

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
    what: 'Acute kidney injury after the case, by creatinine',
    rule: 'rise ≥ 26.5 µmol/L within 48 h, or ≥ 1.5 × within 7 days; stage 2 from 2.0 ×, 3 from 3.0 × or at ≥ 353.6 µmol/L; dialysis is not looked at',
    basis: KDIGO,
  };
  const inputs = [
    ...(before ? [labInput('Creatinine before', before)] : []),
    ...after.map(lab => labInput('Creatinine after', lab)),
  ];
  const fail = (why: string) => ({ calculations: [notAssessed(base, why, inputs)], findings: [] });
  if (!before) return fail('no creatinine before the case is recorded');
  const series = [before, ...after];
  if (series.some(lab => !creatinineMicromol(lab.quantity)?.gt(0)))
    return fail('a creatinine value has no usable unit, or is only a bound');
  const stages: AkiStage[] = [];
  for (const [place, later] of series.entries())
    for (const earlier of series.slice(0, place)) {
      const { least, most } = hoursBetween(earlier.at, later.at);
      const values = [earlier, later].map(lab => creatinineMicromol(lab.quantity) ?? new Decimal(0));
      const [from, to] = values;
      if (!from || !to) continue;
      const [soon, late] = [akiStage(from, to, least), akiStage(from, to, most)];
      if (soon !== late) return fail('the stage depends on the times of day, which are not all recorded');
      if (soon !== undefined) stages.push(soon);
    }
  if (stages.length === 0) return fail('the values lie more than 7 days apart');
  const stage = Math.max(...stages);
  const quantity = { value: String(stage), unit: '', code: '1' };
  const text = stage === 0 ? 'criteria not met' : `stage ${stage}`;
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
    what: `Creatinine ${when} the case`,
    rule:
      when === 'before'
        ? 'last value before the case against the one before it'
        : 'last value after the case against the last one before it',
    basis: 'arithmetic',
  };
  const inputs = labs.map(lab => labInput('Creatinine', lab));
  const [from, to] = [creatinineMicromol(previous.quantity), creatinineMicromol(last.quantity)];
  if (!from?.gt(0) || !to?.gt(0))
    return [notAssessed(base, 'a value is only a bound, or has no usable unit', inputs)];
  const word = to.lt(from) ? 'falling' : to.gt(from) ? 'rising' : 'unchanged';
  const percent = to.minus(from).div(from).times(100).toFixed(0);
  const change = word === 'unchanged' ? '' : ` (${to.gt(from) ? '+' : ''}${percent.replace('-', '−')} %)`;
  const text = `${word}: ${printQuantity(previous.quantity)} to ${printQuantity(last.quantity)}${change}`;
  return [{ ...base, inputs, result: { text } }];
}

/** mL/kg/h over each interval measured, and the stage that it amounts to where the interval is long enough. */
export function urineOutput(record: CaseRecord): Calculation[] {
  return (record.after?.urine ?? []).flatMap((entry, index): Calculation[] => {
    const span = `${entry.from.clock} to ${entry.to.clock}`;
    const base: CalculationBase = {
      key: `urine-output/${index + 1}`,
      group: 'kidney',
      what: `Urine output ${span}`,
      rule: 'mL ÷ kg ÷ h',
      basis: 'arithmetic',
    };
    const hours = (entry.to.epoch - entry.from.epoch) / 3_600_000;
    const volume = amount(entry.volume, 'mL');
    const path = `after.urine[${index}]`;
    const inputs: Input[] = [
      { name: 'Volume', value: printQuantity(entry.volume), path: `${path}.volume` },
      ...(record.patient.weight
        ? [{ name: 'Weight', value: printQuantity(record.patient.weight), path: 'patient.weight' }]
        : []),
      { name: 'Hours', value: String(Number(hours.toFixed(2))), path: `${path}.to` },
    ];
    const weight = weightOf(record.patient.weight);
    if ('why' in weight) return [notAssessed(base, weight.why, inputs)];
    if (hours <= 0) return [notAssessed(base, 'the interval is empty or runs backwards', inputs)];
    if (!volume) return [notAssessed(base, 'the volume is only a bound, or negative', inputs)];
    const rate = volume.div(weight.kg).div(hours);
    const quantity = { value: rate.toFixed(2), unit: 'mL/kg/h', code: 'mL/kg/h' };
    return [assessed(base, quantity, inputs), stageOf(rate, hours, span, index, inputs)];
  });
}

function stageOf(
  rate: Decimal,
  hours: number,
  span: string,
  index: number,
  inputs: readonly Input[],
): Calculation {
  const base: CalculationBase = {
    key: `urine-stage/${index + 1}`,
    group: 'kidney',
    what: `Acute kidney injury by urine output ${span}`,
    rule: 'under 0.5 mL/kg/h for 6 h is stage 1, for 12 h stage 2; under 0.3 for 24 h, or none for 12 h, stage 3; mean over the interval',
    basis: KDIGO,
  };
  const stage = urineStage(rate, hours);
  if (stage === undefined) return notAssessed(base, 'the interval is shorter than 6 h', inputs);
  const quantity = { value: String(stage), unit: '', code: '1' };
  return assessed(base, quantity, inputs, stage === 0 ? 'criterion not met' : `stage ${stage}`);
}
