import { type Finding, finding } from '../../findings/finding.js';
import { message } from '../../findings/message.js';
import type { Decimal } from '../../record/decimal.js';
import { assessed, type Calculation } from '../calculation.js';
import { amount, input } from '../labs/measure.js';
import type { ClinicalLimits } from '../limits.js';
import { rangeOf } from '../limits.js';
import { type Radiation, slipOf, sourceOf, within } from './slip.js';

/** cm: dose-length product over CT dose index. Undefined when either is missing or only a bound, or no index. */
function length(given: Radiation): Decimal | undefined {
  const product = amount(given.doseLengthProduct, 'mGy.cm');
  const index = amount(given.ctDoseIndex, 'mGy');
  return product && index && !index.isZero() ? product.div(index) : undefined;
}

const digits = (cm: Decimal) => (cm.lt(10) ? cm.toSignificantDigits(2).toFixed() : cm.toFixed(0));

/** Length scanned, all passes together, where the scanner's two figures are recorded. */
export function scannedLength(given: Radiation): Calculation[] {
  const cm = length(given);
  const { doseLengthProduct, ctDoseIndex } = given;
  if (!cm || !doseLengthProduct || !ctDoseIndex) return [];
  const base = {
    key: 'scanned-length',
    group: 'radiation',
    what: message('calculation.scanned-length'),
    rule: message('rule.scanned-length'),
    basis: message('basis.scanned-length'),
  } as const;
  const inputs = [
    input(message('input.dose-length-product'), doseLengthProduct, 'radiation.doseLengthProduct'),
    input(message('input.ct-dose-index'), ctDoseIndex, 'radiation.ctDoseIndex'),
  ];
  return [assessed(base, { value: digits(cm), unit: 'cm', code: 'cm' }, inputs)];
}

/** A length that no scan has: one of the two figures is in another unit than written. */
export function ctPlausibility(
  given: Radiation,
  { scanLeast, scanMost, scanShort }: ClinicalLimits['radiation'],
): Finding[] {
  const cm = length(given);
  const { doseLengthProduct, ctDoseIndex } = given;
  if (!cm || !doseLengthProduct || !ctDoseIndex) return [];
  if (within(cm, scanLeast, scanMost)) {
    if (!scanShort || cm.gte(scanShort.value)) return [];
    // A short scan is possible as well: it is asked about, more softly.
    const short = {
      product: { quantity: doseLengthProduct },
      index: { quantity: ctDoseIndex },
      length: { number: digits(cm) },
      ...rangeOf(scanShort, scanMost),
      slip: message('slip.short'),
    };
    const options = { severity: 'information', basis: scanShort.source } as const;
    return [finding('clinical.dose-scan-length', 'radiation.doseLengthProduct', short, options)];
  }
  const params = {
    product: { quantity: doseLengthProduct },
    index: { quantity: ctDoseIndex },
    length: { number: digits(cm) },
    ...rangeOf(scanLeast, scanMost),
    slip: slipOf(cm, scanLeast, scanMost),
  };
  return [
    finding('clinical.dose-scan-length', 'radiation.doseLengthProduct', params, {
      basis: sourceOf(scanLeast, scanMost),
    }),
  ];
}
