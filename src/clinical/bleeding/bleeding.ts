import type { DeviceDetails } from '../../devices/types.js';
import { type Finding, finding } from '../../findings/finding.js';
import { message } from '../../findings/message.js';
import { printQuantity } from '../../record/quantity.js';
import type { CaseRecord } from '../../record/schema/record.js';
import { accessArtery } from '../../trade/places.js';
import {
  assessed,
  type Calculation,
  type CalculationBase,
  type Input,
  inputOf,
  notAssessed,
  told,
} from '../calculation.js';
import { conditionNamed } from '../conditions.js';
import { labInput } from '../kidney/injury.js';
import { ageInDays, labsAfter, lastBefore } from '../labs/labs.js';
import { amount, beyond } from '../labs/measure.js';
import type { ClinicalLimits, LabLimits, Limit } from '../limits.js';
import { byCaseKind } from '../look-up.js';
import { caseNamed } from '../named.js';
import { isPossible } from '../plausible.js';
import { type BleedingRisk, TABLE, type TableRow, tableRow } from './table.js';

export interface BleedingAssessment {
  readonly calculations: readonly Calculation[];
  readonly findings: readonly Finding[];
  readonly risk?: BleedingRisk;
}

/** Bleeding risk of the kind of case, and the labs against its thresholds. Screening labs are not routine at low risk. */
export function assessBleeding(
  record: CaseRecord,
  limits: ClinicalLimits['bleeding'],
  siteRisk: Readonly<Record<string, BleedingRisk>> = {},
  devices: ReadonlyMap<string, DeviceDetails> = new Map(),
): BleedingAssessment {
  const own = byCaseKind(siteRisk, record.case.kind);
  const row: TableRow = own ? { risk: own, row: message('row.site') } : tableRow(record, devices);
  const liver = conditionNamed(record, 'chronic liver disease');
  const base: CalculationBase = {
    key: 'bleeding-risk',
    group: 'bleeding',
    what: message('calculation.bleeding-risk'),
    rule: message('rule.bleeding-risk'),
    basis: own ? message('basis.site') : message('basis.transcription', { source: TABLE }),
  };
  const inputs: Input[] = [
    inputOf(message('input.kind'), caseNamed(record.case.kind), 'case.kind'),
    ...('used' in row && row.used ? [row.used] : []),
    ...(liver === undefined ? [] : [inputOf(message('input.liver'), liver)]),
  ];
  const fall = haemoglobin(record);
  if ('why' in row) {
    const params = { kind: record.case.kind, why: row.why };
    const note = finding('clinical.bleeding-class-unknown', 'case.kind', params, { basis: TABLE });
    // How old a value is does not hang on the class.
    const old = labFindings(record, limits.labAgeDays, artery(record, limits.low), 'low').filter(
      ({ code }) => code === 'clinical.lab-old',
    );
    return { calculations: [notAssessed(base, row.why, inputs), ...fall], findings: [note, ...old] };
  }
  const { risk } = row;
  const thresholds =
    liver === undefined ? limits[risk] : risk === 'high' ? limits.liverHigh : limits.liverLow;
  return {
    calculations: [told(base, message(`result.${risk}`, { row: row.row }), inputs), ...fall],
    findings: labFindings(record, limits.labAgeDays, artery(record, thresholds), risk),
    risk,
  };
}

interface Check {
  readonly lab: 'INR' | 'platelets' | 'fibrinogen';
  readonly code: '1' | '10*9/L' | 'mg/dL';
  readonly side: 'over' | 'from' | 'under';
  readonly limit: Limit | undefined;
}

/** The INR threshold is lower where an artery is entered: the guideline asks for less than the figure itself. */
function artery(record: CaseRecord, thresholds: LabLimits): Check[] {
  const groups = (record.access ?? []).map(({ site }) => accessArtery(site.text));
  const femoral = groups.includes('femoral') ? thresholds.inrFemoral : undefined;
  const radial = groups.includes('radial') ? thresholds.inrRadial : undefined;
  const arterial = femoral ?? radial;
  return [
    {
      lab: 'INR',
      code: '1',
      side: arterial ? 'from' : 'over',
      limit: arterial ?? thresholds.inr,
    },
    { lab: 'platelets', code: '10*9/L', side: 'under', limit: thresholds.platelets },
    { lab: 'fibrinogen', code: 'mg/dL', side: 'under', limit: thresholds.fibrinogen },
  ];
}

function labFindings(
  record: CaseRecord,
  age: Limit | undefined,
  checks: readonly Check[],
  risk: BleedingRisk,
): Finding[] {
  return checks.flatMap(({ lab: name, code, side, limit }): Finding[] => {
    if (!limit) return [];
    const lab = lastBefore(record, name);
    const analyte = message(`analyte.${name}`);
    if (!lab)
      return risk === 'high' && name !== 'fibrinogen'
        ? [finding('clinical.lab-missing', 'before.labs', { lab: analyte, risk: message(`risk.${risk}`) })]
        : [];
    const days = ageInDays(lab.at, record.case.date);
    const old =
      age && days > Number(age.value)
        ? [
            finding(
              'clinical.lab-old',
              lab.path,
              { lab: analyte, days: String(days), limit: { number: age.value } },
              { basis: age.source },
            ),
          ]
        : [];
    if (!isPossible(name, lab.quantity)) return old;
    const _value = printQuantity(lab.quantity);
    const past = beyond(lab.quantity, code, side, limit.value);
    if (past === false) return old;
    const params = {
      lab: analyte,
      value: { quantity: lab.quantity },
      limit: { number: limit.value },
      risk: message(`risk.${risk}`),
    };
    return [
      ...old,
      past
        ? finding('clinical.lab-threshold', lab.path, params, { basis: limit.source })
        : finding('clinical.lab-undecided', lab.path, params, { basis: limit.source }),
    ];
  });
}

/** Haemoglobin after the case against the last before it, g/L. */
function haemoglobin(record: CaseRecord): Calculation[] {
  const before = lastBefore(record, 'haemoglobin');
  const after = labsAfter(record, 'haemoglobin').at(-1);
  if (!before || !after) return [];
  const base: CalculationBase = {
    key: 'haemoglobin-change',
    group: 'bleeding',
    what: message('calculation.haemoglobin-change'),
    rule: message('rule.haemoglobin-change'),
    basis: message('basis.arithmetic'),
  };
  const inputs = [labInput('haemoglobin-before', before), labInput('haemoglobin-after', after)];
  const refused = [before, after].find(lab => !isPossible('haemoglobin', lab.quantity));
  if (refused)
    return [notAssessed(base, message('why.implausible', { value: { quantity: refused.quantity } }), inputs)];
  const [from, to] = [amount(before.quantity, 'g/L'), amount(after.quantity, 'g/L')];
  if (!from || !to) return [notAssessed(base, message('why.bound'), inputs)];
  const change = to.minus(from);
  const amountOf = { quantity: { value: change.abs().toString(), unit: 'g/L', code: 'g/L' } };
  const text = change.isZero()
    ? message('result.same')
    : message(change.isNegative() ? 'result.fallen' : 'result.risen', { amount: amountOf });
  return [assessed(base, { value: change.toString(), unit: 'g/L', code: 'g/L' }, inputs, text)];
}
