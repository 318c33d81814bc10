import { type Finding, finding } from '../findings/finding.js';
import { convert, printQuantity } from '../record/quantity.js';
import type { CaseRecord } from '../record/schema/record.js';
import type { Calculation, Input } from './calculation.js';
import { ageInDays, type LabName, lastBefore } from './labs.js';
import type { ClinicalLimits, Limit } from './limits.js';

const SIR2019 = 'SIR consensus guideline 2019, table 3 (Patel et al., JVIR 2019;30:1168)';

export type BleedingRisk = 'low' | 'high';

/** Rows of the consensus table by kind of case. Kinds that the table does not name are not classified here. */
const byKind: Readonly<Record<string, { readonly risk: BleedingRisk; readonly row: string }>> = {
  'nephrostomy exchange': {
    risk: 'low',
    row: 'catheter exchanges (gastrostomy, biliary, nephrostomy, abscess)',
  },
  'biliary drain exchange': {
    risk: 'low',
    row: 'catheter exchanges (gastrostomy, biliary, nephrostomy, abscess)',
  },
  'drain exchange': { risk: 'low', row: 'catheter exchanges (gastrostomy, biliary, nephrostomy, abscess)' },
  'gastrostomy exchange': {
    risk: 'low',
    row: 'catheter exchanges (gastrostomy, biliary, nephrostomy, abscess)',
  },
  'caval filter insertion': { risk: 'low', row: 'caval filter placement and uncomplicated removal' },
  'caval filter retrieval': { risk: 'low', row: 'caval filter placement and uncomplicated removal' },
  'dialysis-circuit angioplasty': { risk: 'low', row: 'dialysis access interventions' },
  'transjugular liver biopsy': { risk: 'low', row: 'transjugular liver biopsy' },
  nephrostomy: { risk: 'high', row: 'urinary tract interventions, nephrostomy placement included' },
  'biliary drainage': { risk: 'high', row: 'biliary interventions, cholecystostomy included' },
  'biliary stent': { risk: 'high', row: 'biliary interventions, cholecystostomy included' },
  'abscess drainage': { risk: 'high', row: 'deep abscess drainage' },
  'liver biopsy': { risk: 'high', row: 'solid organ biopsy' },
  'kidney biopsy': { risk: 'high', row: 'solid organ biopsy' },
  gastrostomy: { risk: 'high', row: 'gastrostomy placement' },
};

/** Bleeding risk of the kind of case, and the labs against its thresholds. Screening labs are not routine at low risk. */
export function assessBleeding(
  record: CaseRecord,
  limits: ClinicalLimits['bleeding'],
  siteRisk: Readonly<Record<string, BleedingRisk>> = {},
): { calculations: Calculation[]; findings: Finding[]; risk?: BleedingRisk } {
  const base = {
    key: 'bleeding-risk',
    group: 'bleeding',
    what: 'Bleeding risk of the procedure',
    rule: 'row of the consensus table',
  } as const;
  const inputs: Input[] = [{ name: 'Kind of case', value: record.case.kind, path: 'case.kind' }];
  const own = siteRisk[record.case.kind];
  const listed = byKind[record.case.kind];
  const risk = own ?? listed?.risk;
  if (risk === undefined) {
    const notAssessed = 'the table has no row for this kind of case, and the site has set none';
    return { calculations: [{ ...base, inputs, notAssessed, basis: SIR2019 }], findings: [] };
  }
  const calculation: Calculation = {
    ...base,
    inputs,
    result: { text: own ? `${risk}, by the site` : `${risk}: ${listed?.row ?? ''}` },
    basis: own ? 'the site configuration' : SIR2019,
  };
  return { calculations: [calculation], findings: labFindings(record, limits, risk), risk };
}

function labFindings(record: CaseRecord, limits: ClinicalLimits['bleeding'], risk: BleedingRisk): Finding[] {
  const set = limits[risk];
  const checks: [LabName, Limit, '1' | '10*9/L', (value: number, limit: number) => boolean][] = [
    ['INR', set.inr, '1', (value, limit) => value > limit],
    ['platelets', set.platelets, '10*9/L', (value, limit) => value < limit],
  ];
  return checks.flatMap(([name, limit, code, beyond]): Finding[] => {
    const lab = lastBefore(record, name);
    if (!lab)
      return risk === 'high' ? [finding('clinical.lab-missing', 'before.labs', { lab: name, risk })] : [];
    const found: Finding[] = [];
    const days = ageInDays(lab.at, record.case.date);
    if (days > Number(limits.labAgeDays.value))
      found.push(
        finding(
          'clinical.lab-old',
          lab.path,
          { lab: name, days: String(days), limit: limits.labAgeDays.value },
          { basis: limits.labAgeDays.source },
        ),
      );
    const value = convert(lab.quantity, code)?.toNumber();
    if (value !== undefined && beyond(value, Number(limit.value)))
      found.push(
        finding(
          'clinical.lab-threshold',
          lab.path,
          { lab: name, value: printQuantity(lab.quantity), limit: limit.value, risk },
          { basis: limit.source },
        ),
      );
    return found;
  });
}
