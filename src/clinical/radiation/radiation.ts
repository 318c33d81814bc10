import type { Finding } from '../../findings/finding.js';
import { message } from '../../findings/message.js';
import { convert, type Quantity } from '../../record/quantity.js';
import type { CaseRecord } from '../../record/schema/record.js';
import { assessed, type Calculation } from '../calculation.js';
import { amount, input } from '../labs/measure.js';
import type { ClinicalLimits } from '../limits.js';
import { scannedLength } from './ct.js';
import { doseTotals } from './earlier.js';
import { doseLevels } from './levels.js';
import { fieldArea, plausibility } from './plausibility.js';
import { pregnancy } from './pregnancy.js';
import type { Radiation } from './slip.js';

/** What radiation comes to: calculations for the report, findings for the operator. */
export interface RadiationAssessment {
  readonly calculations: readonly Calculation[];
  readonly findings: readonly Finding[];
  /** True when a substantial dose level was reached: the skin is to be looked at. */
  readonly substantial: boolean;
}

/** Dose figures of the case, checked against each other and against the levels of the site. */
export function assessRadiation(
  record: CaseRecord,
  limits: ClinicalLimits['radiation'],
): RadiationAssessment {
  const given = record.radiation;
  if (given === undefined || given === 'none') return { calculations: [], findings: [], substantial: false };
  const totals = doseTotals(record, given, limits);
  const levels = doseLevels(record.case.kind, given, totals, limits);
  return {
    calculations: [
      ...converted(given),
      ...meanField(given),
      ...scannedLength(given),
      ...totals.map(total => total.calculation),
    ],
    findings: [...plausibility(given, limits), ...pregnancy(record), ...levels.findings],
    substantial: levels.substantial,
  };
}

/** The product in Gy·cm² when the console shows another unit. Exact: 1 µGy·m² = 1 cGy·cm² = 0.01 Gy·cm². */
function converted(given: Radiation): Calculation[] {
  const kap = given.kermaAreaProduct;
  const value = kap && convert(kap, 'Gy.cm2')?.toString();
  if (!kap || value === undefined || kap.code === 'Gy.cm2') return [];
  const base = {
    key: 'kerma-area-product',
    group: 'radiation',
    what: message('calculation.kerma-area-product'),
    rule: message('rule.conversion'),
    basis: message('basis.si'),
  } as const;
  const { comparator } = kap;
  const quantity: Quantity = { value, ...(comparator && { comparator }), unit: 'Gy·cm²', code: 'Gy.cm2' };
  const inputs = [input(message('input.kap-shown'), kap, 'radiation.kermaAreaProduct')];
  return [assessed(base, quantity, inputs)];
}

function meanField(given: Radiation): Calculation[] {
  const area = fieldArea(given);
  const { kermaAreaProduct, airKerma } = given;
  if (!area || !kermaAreaProduct || !airKerma || !amount(airKerma, 'Gy')) return [];
  const base = {
    key: 'mean-field-area',
    group: 'radiation',
    what: message('calculation.mean-field-area'),
    rule: message('rule.mean-field-area'),
    basis: message('basis.kap'),
  } as const;
  const value = area.toFixed(0);
  const inputs = [
    input(message('input.kap'), kermaAreaProduct, 'radiation.kermaAreaProduct'),
    input(message('input.air-kerma'), airKerma, 'radiation.airKerma'),
  ];
  return [assessed(base, { value, unit: 'cm²', code: 'cm2' }, inputs)];
}
