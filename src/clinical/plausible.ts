import { type Finding, finding } from '../findings/finding.js';
import { message } from '../findings/message.js';
import { convert, type Quantity } from '../record/quantity.js';
import type { CaseRecord, DrugGiven } from '../record/schema/record.js';
import { unitOfCode } from '../record/units.js';
import { analyteNamed, type Plausible } from '../trade/analytes.js';
import { drugsIn } from '../trade/drugs/table.js';
import { ageOn } from './age.js';
import { either } from './limits.js';

/** Body measures. Common practice, no source; the ranges of an adult are for 18 years and over. */
const body = {
  weight: { unit: 'kg', least: '0.3', most: '400' },
  adultWeight: { unit: 'kg', least: '25', most: '400' },
  height: { unit: 'cm', least: '20', most: '250' },
  adultHeight: { unit: 'cm', least: '90', most: '250' },
} as const;

/** Units in which people mistake one figure for another, by the unit of the range. */
const mistaken: Readonly<Record<string, readonly string[]>> = {
  kg: ['g', '[lb_av]'],
  cm: ['m', 'mm', '[in_i]'],
  mg: ['ug', 'mg', 'g'],
  '[iU]': ['[iU]'],
  'umol/L': ['umol/L', 'mmol/L'],
  'mmol/L': ['umol/L', 'mmol/L'],
  'mg/dL': ['mg/dL', 'mg/L'],
  'g/L': ['g/L', 'g/dL', 'mg/dL'],
  'mg/L': ['mg/L', 'mg/dL', 'ug/L'],
  '10*9/L': ['10*9/L', '/uL'],
  '10*12/L': ['10*12/L'],
};

/** Whether a value lies in the range given for its unit; undefined where no range is of its dimension. */
function within(quantity: Quantity, ranges: readonly Plausible[]): boolean | undefined {
  for (const { unit, least, most } of ranges) {
    const value = convert(quantity, unit) ?? (quantity.code === unit ? convertSame(quantity) : undefined);
    if (!value) continue;
    // A bound says nothing about the figure on its open side.
    if (quantity.comparator?.startsWith('<')) return value.gte(0);
    return value.gte(least) && (quantity.comparator !== undefined || value.lte(most));
  }
  return undefined;
}

/** The number of a quantity whose unit has no factor. */
const convertSame = (quantity: Quantity) => convert({ ...quantity, unit: '', code: '1' }, '1');

/** Whether a laboratory value can be right in its unit, as far as the table tells. */
export const isPossible = (what: string, quantity: Quantity): boolean =>
  within(quantity, analyteNamed(what)?.plausible ?? []) !== false;

/** Whether a dose can be right in its unit, as far as the table tells. */
export const doseIsPossible = ({ drug, dose }: DrugGiven): boolean => doseCheck(drug.text, dose) !== false;

function doseCheck(drug: string, dose: Quantity): boolean | undefined {
  const [row, more] = drugsIn(drug);
  if (!row?.dose || more) return undefined;
  const { dimension } = unitOfCode(dose.code) ?? {};
  if (dimension === 'volume') return undefined;
  const mass = convert(dose, 'mg') ?? convert(dose, 'g')?.times(1000);
  if (row.dose.unit === 'mg') {
    if (!mass) return dose.code === '[iU]' ? undefined : within(dose, [row.dose]);
    return mass.gte(row.dose.least) && mass.lte(row.dose.most);
  }
  // What is dosed by units is not dosed by mass.
  return mass ? false : within(dose, [row.dose]);
}

/** Weight, height, laboratory values and doses that cannot be right in their unit. */
export function implausible(record: CaseRecord): Finding[] {
  const { patient, before, after } = record;
  const adult = isAdult(record);
  const labs = [
    ...(before?.labs ?? []).map((lab, index) => ({ lab, path: `before.labs[${index}].value` })),
    ...(after?.labs ?? []).map((lab, index) => ({ lab, path: `after.labs[${index}].value` })),
  ];
  const drugs = record.drugs === 'none' ? [] : (record.drugs ?? []);
  return [
    ...checked('Weight', patient.weight, [adult ? body.adultWeight : body.weight], 'patient.weight'),
    ...checked('Height', patient.height, [adult ? body.adultHeight : body.height], 'patient.height'),
    ...labs.flatMap(({ lab, path }) =>
      checked(lab.what.text, lab.value, analyteNamed(lab.what.text)?.plausible ?? [], path),
    ),
    ...drugs.flatMap(({ drug, dose }, index) => {
      const [row] = drugsIn(drug.text);
      return row?.dose && doseCheck(drug.text, dose) === false
        ? [refused(drug.text, dose, [row.dose], `drugs[${index}].dose`)]
        : [];
    }),
  ];
}

function isAdult(record: CaseRecord): boolean {
  const { birthDate } = record.patient;
  return birthDate?.precision === 'day' && ageOn(birthDate.iso, record.case.date) >= 18;
}

function checked(
  what: string,
  value: Quantity | undefined,
  ranges: readonly Plausible[],
  path: string,
): Finding[] {
  return value && within(value, ranges) === false ? [refused(what, value, ranges, path)] : [];
}

function refused(what: string, value: Quantity, ranges: readonly Plausible[], path: string): Finding {
  const units = [...new Set(ranges.flatMap(({ unit }) => mistaken[unit] ?? [unit]))];
  const fits = units.filter(code => {
    if (code === value.code) return false;
    const asWritten = { value: value.value, unit: '', code };
    return code === 'g' || code === 'ug' || code === 'mg'
      ? inMilligrams(asWritten, ranges)
      : within(asWritten, ranges) === true;
  });
  const names = fits.map(code => unitOfCode(code)?.display ?? code);
  const range = ranges.map(({ unit, least, most }) =>
    `${least} to ${most} ${unitOfCode(unit)?.display ?? unit}`.trim(),
  );
  return finding('clinical.value-implausible', path, {
    what,
    value: { quantity: value },
    range: either(range),
    would:
      names.length > 0 ? message('implausible.would', { units: either(names) }) : message('implausible.no'),
  });
}

function inMilligrams(quantity: Quantity, ranges: readonly Plausible[]): boolean {
  const mass = convert(quantity, 'mg') ?? convert(quantity, 'g')?.times(1000);
  return ranges.some(
    ({ unit, least, most }) =>
      (unit === 'mg' && mass?.gte(least) === true && mass.lte(most)) ||
      (unit !== 'mg' && within(quantity, [{ unit, least, most }]) === true),
  );
}
