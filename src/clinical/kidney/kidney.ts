import { type Finding, finding } from '../../findings/finding.js';
import { type Message, message } from '../../findings/message.js';
import type { Quantity } from '../../record/quantity.js';
import type { CaseRecord } from '../../record/schema/record.js';
import { ageOn, agesOn, isChild } from '../age.js';
import { heightOf } from '../body.js';
import {
  assessed,
  type Calculation,
  type CalculationBase,
  type Input,
  inputOf,
  notAssessed,
} from '../calculation.js';
import { conditionNamed } from '../conditions.js';
import { ageInDays, type LabValue, lastBefore } from '../labs/labs.js';
import { amount, input } from '../labs/measure.js';
import type { ClinicalLimits } from '../limits.js';
import { isPossible } from '../plausible.js';
import { contrastOf, intravascular } from './contrast.js';
import {
  creatinineMgDl,
  creatinineMicromol,
  egfrBedside,
  egfrCreatinine,
  egfrCystatin,
  type Sex,
} from './equations.js';
import { injury, labInput, trends, urineOutput } from './injury.js';

/** Values that the equations are used for; beyond them a slip of unit is likelier. Common practice, no source. */
export const EGFR_RANGE = {
  creatinine: { least: 10, most: 2500, unit: 'µmol/L' },
  cystatin: { least: 0.1, most: 15, unit: 'mg/L' },
  age: { least: 18, most: 120 },
  /** The bedside equation was made with children from one year of age. */
  child: { least: 1 },
} as const;

export interface KidneyAssessment {
  readonly calculations: readonly Calculation[];
  readonly findings: readonly Finding[];
  /** mL/min/1.73 m² from creatinine. */
  readonly egfr?: number;
}

/** Kidney function before the case, injury and trend where later values are there, urine output. */
export function assessKidney(record: CaseRecord, limits: ClinicalLimits['kidney']): KidneyAssessment {
  const egfr = egfrOf(record);
  const after = injury(record);
  return {
    calculations: [...egfr.calculations, ...after.calculations, ...trends(record), ...urineOutput(record)],
    findings: [...contrastFindings(record, limits, egfr), ...after.findings],
    ...(egfr.value !== undefined && { egfr: egfr.value }),
  };
}

interface Egfr {
  readonly calculations: Calculation[];
  readonly value?: number;
}

/** What kidney function means for contrast that went into vessels: low, old, or not known. */
function contrastFindings(record: CaseRecord, limits: ClinicalLimits['kidney'], egfr: Egfr): Finding[] {
  if (!contrastOf(record).some(({ given }) => intravascular(given))) return [];
  const limit = limits.egfrHighRisk;
  if (!limit || onDialysis(record)) return [];
  if (egfr.value === undefined) {
    const why = egfr.calculations.find(({ key }) => key === 'egfr' || key === 'egfr-bedside')?.notAssessed;
    return [
      finding('clinical.egfr-not-assessed', 'contrast', {
        why: why ?? message('why.no-creatinine'),
      }),
    ];
  }
  const findings: Finding[] = [];
  if (egfr.value < Number(limit.value))
    findings.push(
      finding(
        'clinical.egfr-contrast',
        'contrast',
        { egfr: { number: egfr.value.toFixed(1) }, limit: { number: limit.value } },
        { basis: limit.source },
      ),
    );
  const lab = lastBefore(record, 'creatinine');
  const days = lab ? ageInDays(lab.at, record.case.date) : 0;
  if (lab && limits.labAgeDays && days > Number(limits.labAgeDays.value))
    findings.push(
      finding(
        'clinical.lab-old',
        lab.path,
        {
          lab: message('analyte.creatinine'),
          days: String(days),
          limit: { number: limits.labAgeDays.value },
        },
        { basis: limits.labAgeDays.source },
      ),
    );
  return findings;
}

const onDialysis = (record: CaseRecord) => conditionNamed(record, 'dialysis');

function egfrOf(record: CaseRecord): Egfr {
  const creatinine = lastBefore(record, 'creatinine');
  const cystatin = lastBefore(record, 'cystatin C');
  const who = personOf(record);
  const calculations: Calculation[] = [];
  let value: number | undefined;
  if (creatinine && isChild(record)) {
    const child = bedside(record, creatinine);
    calculations.push(child);
    value = Number(child.result?.quantity?.value ?? Number.NaN);
    if (Number.isNaN(value)) value = undefined;
  } else if (creatinine) {
    const base: CalculationBase = {
      key: 'egfr',
      group: 'kidney',
      what: message('calculation.egfr'),
      rule: message('rule.egfr'),
      basis: 'CKD-EPI 2021 (Inker et al., NEJM 2021;385:1737)',
    };
    const { least, most } = EGFR_RANGE.creatinine;
    const inputs = [labInput('creatinine', creatinine), ...who.inputs];
    const micromol = creatinineMicromol(creatinine.quantity);
    const scr = creatinineMgDl(creatinine.quantity);
    if ('why' in who) calculations.push(notAssessed(base, who.why, inputs));
    else if (!scr || !micromol || micromol.lt(least) || micromol.gt(most)) {
      const why = message('why.creatinine-range', outside(creatinine.quantity, EGFR_RANGE.creatinine));
      calculations.push(notAssessed(base, why, inputs));
    } else {
      value = egfrCreatinine(scr.toNumber(), who.age, who.sex);
      calculations.push(rate(base, value, inputs));
    }
  }
  if (cystatin) {
    const base: CalculationBase = {
      key: 'egfr-cystatin',
      group: 'kidney',
      what: message('calculation.egfr-cystatin'),
      rule: message('rule.egfr-cystatin'),
      basis: message('basis.memory', { source: 'CKD-EPI cystatin C 2012 (Inker et al., NEJM 2012;367:20)' }),
    };
    const { least, most } = EGFR_RANGE.cystatin;
    const inputs = [labInput('cystatin', cystatin), ...who.inputs];
    const scys = amount(cystatin.quantity, 'mg/L');
    if ('why' in who) calculations.push(notAssessed(base, who.why, inputs));
    else if (!scys || scys.lt(least) || scys.gt(most)) {
      const why = message('why.cystatin-range', outside(cystatin.quantity, EGFR_RANGE.cystatin));
      calculations.push(notAssessed(base, why, inputs));
    } else calculations.push(rate(base, egfrCystatin(scys.toNumber(), who.age, who.sex), inputs));
  }
  return { calculations, ...(value !== undefined && { value }) };
}

/**
 * The bedside equation for a child. It is for creatinine by an enzymatic method: a value whose method the record does
 * not say is used, and that is said beside it.
 */
function bedside(record: CaseRecord, creatinine: LabValue): Calculation {
  const enzymatic = /\benzym/i.test(creatinine.what);
  const base: CalculationBase = {
    key: 'egfr-bedside',
    group: 'kidney',
    what: message('calculation.egfr-bedside'),
    rule: message(enzymatic ? 'rule.egfr-bedside' : 'rule.egfr-bedside.method'),
    basis: 'Schwartz et al., J Am Soc Nephrol 2009;20:629',
  };
  const { height, birthDate } = record.patient;
  const inputs = [
    labInput('creatinine', creatinine),
    ...(height ? [input(message('input.height'), height, 'patient.height')] : []),
  ];
  const dialysis = onDialysis(record);
  if (dialysis !== undefined)
    return notAssessed(base, message('why.dialysis', { condition: dialysis }), inputs);
  const ages = agesOn(birthDate, record.case.date);
  if (!ages || ages.least < EGFR_RANGE.child.least)
    return notAssessed(
      base,
      message('why.infant', { n: { number: String(EGFR_RANGE.child.least) } }),
      inputs,
    );
  const cm = heightOf(record);
  if ('why' in cm) return notAssessed(base, cm.why, inputs);
  const scr = creatinineMgDl(creatinine.quantity);
  if (!scr?.gt(0) || !isPossible('creatinine', creatinine.quantity))
    return notAssessed(
      base,
      message('why.creatinine-range', outside(creatinine.quantity, EGFR_RANGE.creatinine)),
      inputs,
    );
  return rate(base, egfrBedside(cm.cm.toNumber(), scr.toNumber()), inputs);
}

const outside = (
  quantity: Quantity,
  { least, most, unit }: { least: number; most: number; unit: string },
) => ({
  value: { quantity },
  least: { number: String(least) },
  most: { number: String(most) },
  unit,
});

/** Whole numbers, as laboratories report them. */
function rate(base: CalculationBase, value: number, inputs: readonly Input[]): Calculation {
  return assessed(
    base,
    { value: value.toFixed(0), unit: 'mL/min/1.73 m²', code: 'mL/min/{1.73_m2}' },
    inputs,
  );
}

type Person = { readonly inputs: Input[] } & (
  | { readonly age: number; readonly sex: Sex }
  | { readonly why: Message }
);

/** Age and sex for the adult equations, or why these cannot be used. */
function personOf(record: CaseRecord): Person {
  const { birthDate, sex } = record.patient;
  const dialysis = onDialysis(record);
  if (dialysis !== undefined)
    return {
      why: message('why.dialysis', { condition: dialysis }),
      inputs: [],
    };
  if (birthDate?.precision !== 'day') return { why: message('why.birth-date'), inputs: [] };
  const age = ageOn(birthDate.iso, record.case.date);
  const n = { number: String(age) };
  const inputs = [inputOf(message('input.age'), message('value.age', { n }), 'patient.birthDate')];
  const { least, most } = EGFR_RANGE.age;
  if (age < 0 || age > most) return { why: message('why.age', { n }), inputs };
  if (age < least)
    return {
      why: message('why.young', { n }),
      inputs,
    };
  if (sex !== 'female' && sex !== 'male') return { why: message('why.sex'), inputs };
  return {
    age,
    sex,
    inputs: [...inputs, inputOf(message('input.sex'), { term: 'sex', value: sex }, 'patient.sex')],
  };
}
