import { type Finding, finding } from '../../findings/finding.js';
import { message } from '../../findings/message.js';
import type { Decimal } from '../../record/decimal.js';
import { amount } from '../labs/measure.js';
import { type ClinicalLimits, rangeOf } from '../limits.js';
import { ctPlausibility } from './ct.js';
import { type Radiation, slipOf, sourceOf, within } from './slip.js';

type Limits = ClinicalLimits['radiation'];

/** cm²: kerma-area product over air kerma, both at the same place. Undefined when either is missing, or no air kerma. */
export function fieldArea(given: Radiation): Decimal | undefined {
  const kap = amount(given.kermaAreaProduct, 'Gy.cm2');
  const kerma = amount(given.airKerma, 'Gy');
  return kap && kerma && !kerma.isZero() ? kap.div(kerma) : undefined;
}

/** A slip of unit by 10 or 100 is the common error: the figures then contradict each other. */
export function plausibility(given: Radiation, limits: Limits): Finding[] {
  return [
    ...negative(given),
    ...slip(given, limits),
    ...rates(given, limits),
    ...ctPlausibility(given, limits),
  ];
}

function negative(given: Radiation): Finding[] {
  const names = [
    'kermaAreaProduct',
    'airKerma',
    'fluoroscopyTime',
    'peakSkinDose',
    'doseLengthProduct',
    'ctDoseIndex',
  ] as const;
  return names.flatMap(name => {
    const quantity = given[name];
    return quantity?.value.startsWith('-')
      ? [finding('clinical.dose-negative', `radiation.${name}`, { value: { quantity } })]
      : [];
  });
}

function slip(given: Radiation, { fieldLeast, fieldMost, fieldNarrow }: Limits): Finding[] {
  const area = fieldArea(given);
  if (!area || !given.kermaAreaProduct || !given.airKerma) return [];
  if (within(area, fieldLeast, fieldMost)) {
    if (!fieldNarrow || area.gte(fieldNarrow.value)) return [];
    const params = {
      product: { quantity: given.kermaAreaProduct },
      kerma: { quantity: given.airKerma },
      area: area.toFixed(0),
      limit: { number: fieldNarrow.value },
    };
    return [
      finding('clinical.dose-field-narrow', 'radiation.kermaAreaProduct', params, {
        basis: fieldNarrow.source,
      }),
    ];
  }
  const params = {
    product: { quantity: given.kermaAreaProduct },
    kerma: { quantity: given.airKerma },
    area: { number: area.lt(1) ? area.toPrecision(2) : area.toFixed(0) },
    ...rangeOf(fieldLeast, fieldMost),
    slip: slipOf(area, fieldLeast, fieldMost),
  };
  const basis = sourceOf(fieldLeast, fieldMost);
  return [finding('clinical.dose-unit-slip', 'radiation.kermaAreaProduct', params, { basis })];
}

/** Dose over the minutes of fluoroscopy: images add to it, so that only what is far out is said. */
function rates(given: Radiation, limits: Limits): Finding[] {
  const minutes = amount(given.fluoroscopyTime, 'min');
  const time = given.fluoroscopyTime;
  if (!time || !minutes || minutes.isZero()) return [];
  const checks = [
    {
      what: message('input.air-kerma'),
      field: 'airKerma',
      code: 'mGy',
      unit: 'mGy/min',
      least: limits.kermaRateLeast,
      most: limits.kermaRateMost,
    },
    {
      what: message('input.kap'),
      field: 'kermaAreaProduct',
      code: 'Gy.cm2',
      unit: 'Gy·cm²/min',
      least: limits.productRateLeast,
      most: limits.productRateMost,
    },
  ] as const;
  return checks.flatMap(({ what, field, code, unit, least, most }): Finding[] => {
    const quantity = given[field];
    const rate = amount(quantity, code)?.div(minutes);
    if (!quantity || !rate || within(rate, least, most)) return [];
    const params = {
      what,
      value: { quantity },
      time: { quantity: time },
      rate: { quantity: { value: rate.toSignificantDigits(3).toString(), unit, code: unit } },
      range: message('range.rate', { ...rangeOf(least, most), unit }),
    };
    return [finding('clinical.dose-rate', `radiation.${field}`, params, { basis: sourceOf(least, most) })];
  });
}
