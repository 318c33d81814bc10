import { Temporal } from 'temporal-polyfill';
import { type Finding, finding } from '../findings/finding.js';
import { inBaseUnit, printQuantity, type Quantity } from '../record/quantity.js';
import type { CaseRecord } from '../record/schema/record.js';
import type { Calculation, Input } from './calculation.js';
import type { ClinicalLimits, Limit } from './limits.js';

type Radiation = Exclude<NonNullable<CaseRecord['radiation']>, 'none'>;

/** What radiation comes to: calculations for the report, findings for the operator. */
export interface RadiationAssessment {
  readonly calculations: readonly Calculation[];
  readonly findings: readonly Finding[];
  /** True when a substantial dose level was reached: the skin is to be looked at. */
  readonly substantial: boolean;
}

const round = (value: number, digits: number) => value.toFixed(digits);

const quantityOf = (value: string, unit: string, code: string): Quantity => ({ value, unit, code });

/** Dose figures of the case, checked against each other and against the levels of the site. */
export function assessRadiation(
  record: CaseRecord,
  limits: ClinicalLimits['radiation'],
): RadiationAssessment {
  const given = record.radiation;
  if (given === undefined || given === 'none') return { calculations: [], findings: [], substantial: false };
  const total = cumulative(record, given, limits);
  const levels = levelFindings(record, given, total, limits);
  return {
    calculations: [...converted(given), ...meanField(given), ...(total ? [total.calculation] : [])],
    findings: [...plausibility(given), ...pregnancy(record), ...levels.findings],
    substantial: levels.substantial,
  };
}

/** The product in Gy·cm² when the console shows another unit. Exact: 1 µGy·m² = 1 cGy·cm² = 0.01 Gy·cm². */
function converted(given: Radiation): Calculation[] {
  const kap = given.kermaAreaProduct;
  if (!kap || kap.code === 'Gy.cm2') return [];
  const value = inBaseUnit(kap)?.toString() ?? '';
  return [
    {
      key: 'kerma-area-product',
      group: 'radiation',
      what: 'Kerma-area product',
      result: { text: `${value} Gy·cm²`, quantity: quantityOf(value, 'Gy·cm²', 'Gy.cm2') },
      inputs: [input('Kerma-area product as shown', kap, 'radiation.kermaAreaProduct')],
      rule: 'unit conversion by definition',
      basis: 'SI prefixes; 1 m² = 10 000 cm²',
    },
  ];
}

const input = (name: string, quantity: Quantity, path: string): Input => ({
  name,
  value: printQuantity(quantity),
  path,
});

/** cm²: kerma-area product over air kerma, both at the same place. Undefined when either is missing or zero. */
function fieldArea(given: Radiation): number | undefined {
  const kap = given.kermaAreaProduct && inBaseUnit(given.kermaAreaProduct)?.toNumber();
  const kerma = given.airKerma && inBaseUnit(given.airKerma)?.toNumber();
  return kap && kerma ? kap / kerma : undefined;
}

function meanField(given: Radiation): Calculation[] {
  const area = fieldArea(given);
  if (area === undefined || !given.kermaAreaProduct || !given.airKerma) return [];
  const value = round(area, 0);
  return [
    {
      key: 'mean-field-area',
      group: 'radiation',
      what: 'Mean field area at the reference point',
      result: { text: `${value} cm²`, quantity: quantityOf(value, 'cm²', 'cm2') },
      inputs: [
        input('Kerma-area product', given.kermaAreaProduct, 'radiation.kermaAreaProduct'),
        input('Air kerma', given.airKerma, 'radiation.airKerma'),
      ],
      rule: 'kerma-area product ÷ air kerma',
      basis: 'definition of the kerma-area product (ICRU Report 74); from memory',
    },
  ];
}

/**
 * Smallest and largest mean field at the reference point, cm². A 30 cm x 40 cm detector at 110 cm from the focus covers
 * about 360 cm² at 60 cm, where the reference point lies; a narrow beam covers some ten. Common practice, no source.
 */
const FIELD = { least: 10, most: 400 } as const;
/** mGy of air kerma in a minute of fluoroscopy beyond which a slip is likelier than a long run of images. */
const RATE = { least: 0.2, most: 500 } as const;

/** A slip of unit by 10 or 100 is the common error: the figures then contradict each other. */
function plausibility(given: Radiation): Finding[] {
  const findings: Finding[] = [];
  const area = fieldArea(given);
  if (
    area !== undefined &&
    given.kermaAreaProduct &&
    given.airKerma &&
    (area < FIELD.least || area > FIELD.most)
  ) {
    const factor = [10, 100, 1000].find(f => within(area * f) || within(area / f));
    findings.push(
      finding('clinical.dose-unit-slip', 'radiation.kermaAreaProduct', {
        product: printQuantity(given.kermaAreaProduct),
        kerma: printQuantity(given.airKerma),
        area: area < 1 ? round(area, 2) : round(area, 0),
        least: String(FIELD.least),
        most: String(FIELD.most),
        slip: factor
          ? `A slip of ${factor} times in one of them would explain it.`
          : 'No single slip of unit explains it.',
      }),
    );
  }
  const minutes = given.fluoroscopyTime && inBaseUnit(given.fluoroscopyTime)?.toNumber();
  const milligray = given.airKerma && inBaseUnit(given.airKerma)?.times(1000).toNumber();
  if (minutes && milligray && (milligray / minutes < RATE.least || milligray / minutes > RATE.most))
    findings.push(
      finding('clinical.dose-rate', 'radiation.airKerma', {
        kerma: printQuantity(given.airKerma as Quantity),
        time: printQuantity(given.fluoroscopyTime as Quantity),
        rate: round(milligray / minutes, 2),
      }),
    );
  return findings;
}

const within = (area: number) => area >= FIELD.least && area <= FIELD.most;

/** Air kerma of this case and of earlier cases within the window, Gy. */
function cumulative(record: CaseRecord, given: Radiation, limits: ClinicalLimits['radiation']) {
  if (!given.airKerma || !given.earlier) return undefined;
  const day = Temporal.PlainDate.from(record.case.date);
  const from = day.subtract({ days: Number(limits.windowDays.value) });
  const counted = given.earlier.flatMap((entry, index) => {
    const date = Temporal.PlainDate.from(entry.date);
    const inWindow =
      Temporal.PlainDate.compare(date, from) >= 0 && Temporal.PlainDate.compare(date, day) <= 0;
    return entry.airKerma && inWindow
      ? [{ quantity: entry.airKerma, date: entry.date, path: `radiation.earlier[${index}].airKerma` }]
      : [];
  });
  const own = inBaseUnit(given.airKerma);
  if (!own || counted.length === 0) return undefined;
  const sum = counted.reduce((total, entry) => total.plus(inBaseUnit(entry.quantity) ?? 0), own);
  const value = sum.toString();
  const calculation: Calculation = {
    key: 'air-kerma-cumulative',
    group: 'radiation',
    what: `Air kerma, this case and ${counted.length} earlier within ${limits.windowDays.value} days`,
    result: { text: `${value} Gy`, quantity: quantityOf(value, 'Gy', 'Gy') },
    inputs: [
      input('This case', given.airKerma, 'radiation.airKerma'),
      ...counted.map(entry => input(entry.date, entry.quantity, entry.path)),
    ],
    rule: 'sum; skin fields are taken to overlap',
    basis: limits.windowDays.source,
  };
  return { calculation, gray: sum.toNumber() };
}

/** Levels of the site: what was reached, by how much, and whose level it is. */
function levelFindings(
  record: CaseRecord,
  given: Radiation,
  total: { gray: number } | undefined,
  limits: ClinicalLimits['radiation'],
) {
  const findings: Finding[] = [];
  const say = (
    quantity: Quantity | undefined,
    path: string,
    what: string,
    limit: Limit | undefined,
    unit: string,
    code: 'clinical.dose-substantial' | 'clinical.dose-notify' | 'clinical.dose-local',
  ) => {
    const value = quantity && inBaseUnit(quantity);
    if (!quantity || !limit || !value || value.lt(limit.value)) return false;
    findings.push(
      finding(
        code,
        path,
        { what, value: printQuantity(quantity), limit: `${limit.value} ${unit}` },
        { basis: limit.source },
      ),
    );
    return true;
  };
  const kermaHit = say(
    given.airKerma,
    'radiation.airKerma',
    'Air kerma',
    limits.airKermaSubstantial,
    'Gy',
    'clinical.dose-substantial',
  );
  if (!kermaHit)
    say(
      given.airKerma,
      'radiation.airKerma',
      'Air kerma',
      limits.airKermaNotify,
      'Gy',
      'clinical.dose-notify',
    );
  const hits = [
    kermaHit,
    say(
      given.peakSkinDose,
      'radiation.peakSkinDose',
      'Peak skin dose',
      limits.peakSkinDoseSubstantial,
      'Gy',
      'clinical.dose-substantial',
    ),
    say(
      given.kermaAreaProduct,
      'radiation.kermaAreaProduct',
      'Kerma-area product',
      limits.kermaAreaSubstantial,
      'Gy·cm²',
      'clinical.dose-substantial',
    ),
    say(
      given.fluoroscopyTime,
      'radiation.fluoroscopyTime',
      'Fluoroscopy time',
      limits.fluoroscopySubstantial,
      'min',
      'clinical.dose-substantial',
    ),
  ];
  say(
    given.kermaAreaProduct,
    'radiation.kermaAreaProduct',
    'Kerma-area product',
    limits.local[record.case.kind],
    'Gy·cm²',
    'clinical.dose-local',
  );
  const limit = limits.airKermaSubstantial;
  const summed = !kermaHit && total !== undefined && limit !== undefined && total.gray >= Number(limit.value);
  if (summed)
    findings.push(
      finding(
        'clinical.dose-substantial',
        'radiation.earlier',
        { what: 'Air kerma with earlier cases', value: `${total.gray} Gy`, limit: `${limit.value} Gy` },
        { basis: limit.source },
      ),
    );
  return { findings, substantial: hits.some(Boolean) || summed };
}

/** The question is asked of everyone who could be pregnant; twelve to fifty-five is the age range that most rules name. */
function pregnancy(record: CaseRecord): Finding[] {
  const { sex, pregnant, birthDate } = record.patient;
  if (pregnant === 'yes') return [finding('clinical.pregnant', 'patient.pregnant', {})];
  if (sex === 'male' || pregnant === 'no' || pregnant === 'not applicable') return [];
  const age = birthDate?.precision === 'day' ? ageOn(birthDate.iso, record.case.date) : undefined;
  if (age !== undefined && (age < 12 || age > 55)) return [];
  return [finding('clinical.pregnancy-not-asked', 'patient.pregnant', {})];
}

/** Whole years between two days. */
export function ageOn(birthDate: string, day: string): number {
  return Temporal.PlainDate.from(birthDate).until(Temporal.PlainDate.from(day), { largestUnit: 'years' })
    .years;
}
