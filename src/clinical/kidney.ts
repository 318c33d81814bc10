import { type Finding, finding } from '../findings/finding.js';
import { convert, inBaseUnit, printQuantity, type Quantity } from '../record/quantity.js';
import type { CaseRecord } from '../record/schema/record.js';
import { type Calculation, type Input, notAssessed } from './calculation.js';
import { type LabValue, labsNamed, lastBefore, orderOf } from './labs.js';
import type { ClinicalLimits } from './limits.js';
import { ageOn } from './radiation.js';

const CKD_EPI = 'CKD-EPI 2021 (Inker et al., NEJM 2021;385:1737)';
const CKD_EPI_CYS = 'CKD-EPI cystatin C 2012 (Inker et al., NEJM 2012;367:20); from memory';
const KDIGO = 'KDIGO Acute Kidney Injury 2012, table 2';
/** µmol/L in 1 mg/dL of creatinine (molar mass 113.12 g/mol); the factor that KDIGO's paired values imply. */
const MICROMOL_PER_MG_DL = 88.4;

/** Creatinine in mg/dL, or undefined for a unit that is not a concentration. */
export function creatinineMgDl(quantity: Quantity): number | undefined {
  const molar = convert(quantity, 'umol/L');
  if (molar) return molar.toNumber() / MICROMOL_PER_MG_DL;
  return convert(quantity, 'mg/dL')?.toNumber();
}

/**
 * eGFR in mL/min/1.73 m² by CKD-EPI 2021 (creatinine):
 * 142 × min(Scr/κ, 1)^α × max(Scr/κ, 1)^−1.200 × 0.9938^age × 1.012 [female].
 * @param scr serum creatinine, mg/dL, above 0
 * @param age years, 18 or more
 */
export function egfrCreatinine(scr: number, age: number, sex: 'female' | 'male'): number {
  const kappa = sex === 'female' ? 0.7 : 0.9;
  const alpha = sex === 'female' ? -0.241 : -0.302;
  return (
    142 *
    Math.min(scr / kappa, 1) ** alpha *
    Math.max(scr / kappa, 1) ** -1.2 *
    0.9938 ** age *
    (sex === 'female' ? 1.012 : 1)
  );
}

/**
 * eGFR in mL/min/1.73 m² by CKD-EPI 2012 (cystatin C), from memory:
 * 133 × min(Scys/0.8, 1)^−0.499 × max(Scys/0.8, 1)^−1.328 × 0.996^age × 0.932 [female].
 * @param scys cystatin C, mg/L
 */
export function egfrCystatin(scys: number, age: number, sex: 'female' | 'male'): number {
  return (
    133 *
    Math.min(scys / 0.8, 1) ** -0.499 *
    Math.max(scys / 0.8, 1) ** -1.328 *
    0.996 ** age *
    (sex === 'female' ? 0.932 : 1)
  );
}

export interface KidneyAssessment {
  readonly calculations: readonly Calculation[];
  readonly findings: readonly Finding[];
  /** mL/min/1.73 m², for the contrast checks. */
  readonly egfr?: number;
}

/** Kidney function before the case, injury and trend where later values are there, urine output. */
export function assessKidney(record: CaseRecord, limits: ClinicalLimits['kidney']): KidneyAssessment {
  const egfr = egfrOf(record);
  const calculations = [...egfr.calculations, ...injury(record), ...trend(record), ...urineOutput(record)];
  const findings: Finding[] = [];
  const intravascular = (record.contrast === 'none' ? [] : (record.contrast ?? [])).some(
    c => c.route === 'intra-arterial' || c.route === 'intravenous',
  );
  if (egfr.value !== undefined && intravascular && egfr.value < Number(limits.egfrHighRisk.value))
    findings.push(
      finding(
        'clinical.egfr-contrast',
        'contrast',
        { egfr: egfr.value.toFixed(0), limit: limits.egfrHighRisk.value },
        { basis: limits.egfrHighRisk.source },
      ),
    );
  return { calculations, findings, ...(egfr.value !== undefined && { egfr: egfr.value }) };
}

function egfrOf(record: CaseRecord): { calculations: Calculation[]; value?: number } {
  const creatinine = lastBefore(record, 'creatinine');
  const cystatin = lastBefore(record, 'cystatin C');
  if (!creatinine && !cystatin) return { calculations: [] };
  const base = {
    key: 'egfr',
    group: 'kidney',
    what: 'Estimated glomerular filtration rate, from creatinine',
    rule: '142 × min(Scr/κ,1)^α × max(Scr/κ,1)^−1.200 × 0.9938^age × 1.012 if female',
    basis: CKD_EPI,
  } as const;
  const cysBase = {
    key: 'egfr-cystatin',
    group: 'kidney',
    what: 'Estimated glomerular filtration rate, from cystatin C',
    rule: '133 × min(Scys/0.8,1)^−0.499 × max(Scys/0.8,1)^−1.328 × 0.996^age × 0.932 if female',
    basis: CKD_EPI_CYS,
  } as const;
  const calculations: Calculation[] = [];
  let value: number | undefined;
  const why = whyNot(record);
  const who = why === undefined ? person(record) : undefined;
  if (creatinine) {
    const inputs = [labInput('Creatinine', creatinine), ...(who?.inputs ?? [])];
    const scr = creatinineMgDl(creatinine.quantity);
    if (!who) calculations.push(notAssessed(base, why ?? '', inputs));
    else if (scr === undefined || scr <= 0 || creatinine.quantity.comparator)
      calculations.push(
        notAssessed(base, `creatinine of ${printQuantity(creatinine.quantity)} cannot be used`, inputs),
      );
    else {
      value = egfrCreatinine(scr, who.age, who.sex);
      calculations.push(rate(base, value, inputs));
    }
  }
  if (cystatin) {
    const inputs = [labInput('Cystatin C', cystatin), ...(who?.inputs ?? [])];
    const scys = convert(cystatin.quantity, 'mg/L')?.toNumber();
    if (!who) calculations.push(notAssessed(cysBase, why ?? '', inputs));
    else if (!scys || cystatin.quantity.comparator)
      calculations.push(
        notAssessed(cysBase, `cystatin C of ${printQuantity(cystatin.quantity)} cannot be used`, inputs),
      );
    else calculations.push(rate(cysBase, egfrCystatin(scys, who.age, who.sex), inputs));
  }
  return { calculations, ...(value !== undefined && { value }) };
}

function rate(
  base: Omit<Calculation, 'result' | 'notAssessed' | 'inputs'>,
  value: number,
  inputs: readonly Input[],
): Calculation {
  const text = value.toFixed(0);
  return {
    ...base,
    inputs,
    result: {
      text: `${text} mL/min/1.73 m²`,
      quantity: { value: text, unit: 'mL/min/1.73 m²', code: 'mL/min/{1.73_m2}' },
    },
  };
}

const labInput = (name: string, lab: LabValue): Input => ({
  name: `${name} of ${lab.at.text}`,
  value: printQuantity(lab.quantity),
  path: lab.path,
});

/** Why the adult equations cannot be used; undefined when they can. */
function whyNot(record: CaseRecord): string | undefined {
  const { birthDate, sex } = record.patient;
  if (birthDate?.precision !== 'day') return 'the date of birth is not recorded to the day';
  const age = ageOn(birthDate.iso, record.case.date);
  if (age < 18) return `the patient was ${age} years old; the equation is for adults of 18 years and over`;
  if (sex !== 'female' && sex !== 'male') return 'the equation needs sex female or male';
  return undefined;
}

function person(record: CaseRecord) {
  const { birthDate, sex } = record.patient;
  if (!birthDate || (sex !== 'female' && sex !== 'male')) return undefined;
  const age = ageOn(birthDate.iso, record.case.date);
  const inputs: Input[] = [
    { name: 'Age on the day', value: `${age} years`, path: 'patient.birthDate' },
    { name: 'Sex', value: sex, path: 'patient.sex' },
  ];
  return { age, sex, inputs } as const;
}

const HOUR = 3_600_000;

/**
 * KDIGO stage of acute kidney injury from two creatinine values.
 * @param base baseline, µmol/L; @param later, µmol/L; @param hours between them
 * @returns 0 when neither criterion is met: rise of 26.5 µmol/L within 48 h, or to 1.5 times within 7 days
 */
export function akiStage(base: number, later: number, hours: number): 0 | 1 | 2 | 3 {
  const ratio = later / base;
  const rise = later - base >= 26.5 && hours <= 48;
  if (!(rise || (ratio >= 1.5 && hours <= 168))) return 0;
  if (ratio >= 3 || later >= 353.6) return 3;
  return ratio >= 2 ? 2 : 1;
}

/** µmol/L, for criteria stated in it; mg/dL is multiplied by 88.4. */
function micromolar(quantity: Quantity): number | undefined {
  const mgDl = creatinineMgDl(quantity);
  return mgDl === undefined || quantity.comparator ? undefined : mgDl * MICROMOL_PER_MG_DL;
}

/** Injury after the case: the last value before it against the highest one after. */
function injury(record: CaseRecord): Calculation[] {
  const before = lastBefore(record, 'creatinine');
  const after = labsNamed(record, 'creatinine').filter(lab => lab.path.startsWith('after'));
  if (!before || after.length === 0) return [];
  const base = {
    key: 'kidney-injury',
    group: 'kidney',
    what: 'Acute kidney injury after the case, by creatinine',
    rule: 'rise ≥ 26.5 µmol/L within 48 h, or ≥ 1.5 × within 7 days; stage by the ratio, 3 at ≥ 353.6 µmol/L',
    basis: KDIGO,
  } as const;
  const from = micromolar(before.quantity);
  const stages = after.flatMap(lab => {
    const value = micromolar(lab.quantity);
    return from && value
      ? [{ lab, stage: akiStage(from, value, (orderOf(lab.at) - orderOf(before.at)) / HOUR) }]
      : [];
  });
  const inputs = [
    labInput('Creatinine before', before),
    ...after.map(lab => labInput('Creatinine after', lab)),
  ];
  if (stages.length === 0) return [notAssessed(base, 'the creatinine values cannot be compared', inputs)];
  const stage = Math.max(...stages.map(s => s.stage));
  return [
    {
      ...base,
      inputs,
      result: {
        text: stage === 0 ? 'criteria not met' : `stage ${stage}`,
        quantity: { value: String(stage), unit: '', code: '1' },
      },
    },
  ];
}

/** Direction of creatinine over all values, in words. */
function trend(record: CaseRecord): Calculation[] {
  const labs = labsNamed(record, 'creatinine');
  const first = labs[0];
  const last = labs.at(-1);
  if (!first || !last || first === last) return [];
  const a = micromolar(first.quantity);
  const b = micromolar(last.quantity);
  const base = {
    key: 'creatinine-trend',
    group: 'kidney',
    what: 'Creatinine over time',
    rule: 'last value against the one before it',
    basis: 'arithmetic',
  } as const;
  const inputs = labs.map(lab => labInput('Creatinine', lab));
  const previous = labs.at(-2);
  const p = previous && micromolar(previous.quantity);
  if (a === undefined || b === undefined || p === undefined)
    return [notAssessed(base, 'a value has a comparator or no usable unit', inputs)];
  const word = b < p ? 'falling' : b > p ? 'rising' : 'unchanged';
  return [
    {
      ...base,
      inputs,
      result: {
        text: `${word}: ${printQuantity(previous?.quantity ?? first.quantity)} to ${printQuantity(last.quantity)}`,
      },
    },
  ];
}

/** mL/kg/h over each interval measured. */
function urineOutput(record: CaseRecord): Calculation[] {
  return (record.after?.urine ?? []).map((entry, index): Calculation => {
    const base = {
      key: `urine-output-${index + 1}`,
      group: 'kidney',
      what: `Urine output ${entry.from.clock} to ${entry.to.clock}`,
      rule: 'mL ÷ kg ÷ h',
      basis: 'KDIGO Acute Kidney Injury 2012, table 2 (criterion by urine output)',
    } as const;
    const weight = record.patient.weight && convert(record.patient.weight, 'kg')?.toNumber();
    const hours = (entry.to.epoch - entry.from.epoch) / HOUR;
    const volume = inBaseUnit(entry.volume)?.toNumber();
    const inputs: Input[] = [
      { name: 'Volume', value: printQuantity(entry.volume), path: `after.urine[${index}].volume` },
      ...(record.patient.weight
        ? [{ name: 'Weight', value: printQuantity(record.patient.weight), path: 'patient.weight' }]
        : []),
      { name: 'Hours', value: String(hours) },
    ];
    if (!weight) return notAssessed(base, 'the weight is not recorded', inputs);
    if (hours <= 0 || volume === undefined)
      return notAssessed(base, 'the interval is empty or runs backwards', inputs);
    const value = (volume / weight / hours).toFixed(2);
    return {
      ...base,
      inputs,
      result: { text: `${value} mL/kg/h`, quantity: { value, unit: 'mL/kg/h', code: 'mL/kg/h' } },
    };
  });
}
