import { type Finding, finding } from '../findings/finding.js';
import { message, type Param } from '../findings/message.js';
import { Decimal } from '../record/decimal.js';
import { entriesOf } from '../record/entries.js';
import { convert, type Quantity } from '../record/quantity.js';
import type { CaseRecord } from '../record/schema/record.js';
import { unitOfCode } from '../record/units.js';
import { analyteNamed, type Plausible } from '../trade/analytes.js';
import { elementOf } from '../trade/drugs/table.js';
import { either } from './limits.js';

/** What a value may come to in a unit. */
export type Range = Plausible;

/** Contrast as it is sold or diluted, mg of iodine or of the gadolinium compound in 1 mL, and what one case may need. Common practice, no source. */
const contrast: Readonly<Record<'concentration' | 'gadolinium' | 'volume', Range>> = {
  concentration: { unit: 'mg/mL', least: '25', most: '420' },
  gadolinium: { unit: 'mg/mL', least: '150', most: '700' },
  volume: { unit: 'mL', least: '0.1', most: '1000' },
};

/** What one case comes to at the very most; the least is for the rules of the dose figures. Common practice, no source. */
const radiation = [
  { field: 'kermaAreaProduct', name: 'input.kap', range: { unit: 'Gy.cm2', least: '0', most: '3000' } },
  { field: 'airKerma', name: 'input.air-kerma', range: { unit: 'Gy', least: '0', most: '30' } },
  { field: 'peakSkinDose', name: 'label.peakSkinDose', range: { unit: 'Gy', least: '0', most: '30' } },
  {
    field: 'fluoroscopyTime',
    name: 'label.fluoroscopyTime',
    range: { unit: 'min', least: '0', most: '600' },
  },
  {
    field: 'doseLengthProduct',
    name: 'input.dose-length-product',
    range: { unit: 'mGy.cm', least: '0', most: '20000' },
  },
  { field: 'ctDoseIndex', name: 'input.ct-dose-index', range: { unit: 'mGy', least: '0', most: '1000' } },
] as const;

/** Units in which people mistake one figure for another, by the unit of the range. */
const mistaken: Readonly<Record<string, readonly string[]>> = {
  kg: ['g', '[lb_av]'],
  cm: ['m', 'mm', '[in_i]'],
  mL: ['mL', 'uL'],
  'mg/mL': ['g/L', 'mg/mL'],
  'Gy.cm2': ['dGy.cm2', 'cGy.cm2', 'mGy.cm2', 'uGy.m2'],
  Gy: ['mGy'],
  min: ['s', 'min'],
  'umol/L': ['umol/L', 'mmol/L'],
  'mmol/L': ['umol/L', 'mmol/L'],
  'mg/dL': ['mg/dL', 'mg/L'],
  'g/L': ['g/L', 'g/dL', 'mg/dL'],
  'mg/L': ['mg/L', 'mg/dL', 'ug/L'],
  '10*9/L': ['10*9/L', '/uL'],
  '10*12/L': ['10*12/L'],
};

/**
 * Whether a value lies in the range given for its unit; undefined where no range is of its dimension. Of a bound only
 * the side that it leaves open is believed: `> 51 mmol/L` of potassium is as wrong as 51.
 */
export function within(quantity: Quantity, ranges: readonly Range[]): boolean | undefined {
  for (const { unit, least, most } of ranges) {
    const value = convert(quantity, unit) ?? (quantity.code === unit ? convertSame(quantity) : undefined);
    if (!value) continue;
    // Laboratories give `< 5 mg/L` for what they cannot measure: only nothing at all, or less, is refused.
    if (quantity.comparator?.startsWith('<')) return value.gt(0);
    if (quantity.comparator) return value.gte(0) && value.lte(most);
    return value.gte(least) && value.lte(most);
  }
  return undefined;
}

/** The number of a quantity whose unit has no factor. */
const convertSame = (quantity: Quantity) => convert({ ...quantity, unit: '', code: '1' }, '1');

/** Whether a laboratory value can be right in its unit, as far as the table tells. */
export const isPossible = (what: string, quantity: Quantity): boolean =>
  within(quantity, analyteNamed(what)?.plausible ?? []) !== false;

/** Laboratory values and contrast that cannot be right in their unit. */
export function unlikelyValues(record: CaseRecord): Finding[] {
  const { before, after } = record;
  const dose = record.radiation === 'none' ? undefined : record.radiation;
  const labs = [
    ...(before?.labs ?? []).map((lab, index) => ({ lab, path: `before.labs[${index}].value` })),
    ...(after?.labs ?? []).map((lab, index) => ({ lab, path: `after.labs[${index}].value` })),
  ];
  const agents = entriesOf(record.contrast);
  return [
    ...labs.flatMap(({ lab: { what, value }, path }) => {
      const row = analyteNamed(what.text);
      const found = checked(what.text, value, row?.plausible ?? [], path);
      return found.length === 0 && row?.name === 'platelets' ? slippedPoint(what.text, value, path) : found;
    }),
    ...radiation.flatMap(({ field, name, range }) => {
      const value = dose?.[field];
      // Below zero has a finding of its own.
      return value?.value.startsWith('-')
        ? []
        : checked({ sentence: message(name) }, value, [range], `radiation.${field}`);
    }),
    ...agents.flatMap(({ agent, concentration, volume }, index) => {
      const path = `contrast[${index}]`;
      const element = elementOf(agent.text);
      const iodine =
        element === 'iodine'
          ? [contrast.concentration]
          : element === 'gadolinium'
            ? [contrast.gadolinium]
            : [];
      return [
        ...checked(agent.text, concentration, iodine, `${path}.concentration`),
        ...checked(agent.text, volume, [contrast.volume], `${path}.volume`),
      ];
    }),
  ];
}

/** Platelets are counted in whole numbers of 10⁹/L: a low count with a decimal is likelier to be a slipped point. */
function slippedPoint(what: string, value: Quantity, path: string): Finding[] {
  const count = convert(value, '10*9/L');
  if (
    !count ||
    value.code === '/uL' ||
    value.comparator ||
    count.isInteger() ||
    count.lt(10) ||
    count.gte(60)
  )
    return [];
  const would = { quantity: { ...value, value: new Decimal(value.value).times(10).toString() } };
  return [
    finding('clinical.value-unlikely', path, {
      what: message('unlikely.decimal', { what, value: { quantity: value }, would }),
    }),
  ];
}

function checked(
  what: Param,
  value: Quantity | undefined,
  ranges: readonly Range[],
  path: string,
): Finding[] {
  return value && within(value, ranges) === false ? [refused(what, value, ranges, path)] : [];
}

/** The finding on a value that cannot be right, with the units or slips of the point that would explain it. */
export function refused(what: Param, value: Quantity, ranges: readonly Range[], path: string): Finding {
  const range = ranges.map(
    ({ unit, least, most }): Param =>
      message('range.rate', {
        least: { number: least },
        most: { number: most },
        unit: unitOfCode(unit)?.display ?? unit,
      }),
  );
  return finding('clinical.value-unlikely', path, {
    what: message('unlikely.value', {
      what,
      value: { quantity: value },
      range: either(range),
      would: wouldFit(explanations(value, ranges)),
    }),
  });
}

/** ` It would fit as 9.2 g/dL.`; nothing where nothing would explain the figure. */
export const wouldFit = (values: readonly Quantity[]): Param =>
  values.length === 0
    ? ''
    : message('implausible.would', { values: either(values.map(quantity => ({ quantity }))) });

/** The same figure in another unit, and with its point moved to the nearest place that fits. */
function explanations(value: Quantity, ranges: readonly Range[]): Quantity[] {
  const units = [...new Set(ranges.flatMap(({ unit }) => mistaken[unit] ?? [unit]))]
    .filter(code => code !== value.code)
    .map((code): Quantity => ({ value: value.value, unit: unitOfCode(code)?.display ?? code, code }))
    .filter(other => within(other, ranges) === true);
  const moved = ['0.1', '10', '0.01', '100', '0.001', '1000']
    .map((factor): Quantity => ({ ...value, value: new Decimal(value.value).times(factor).toString() }))
    .find(other => within(other, ranges) === true);
  return [...units, ...(moved ? [moved] : [])].map(({ value: figure, unit, code }) => ({
    value: figure,
    unit,
    code,
  }));
}
