import { Decimal } from '../../record/decimal.js';
import type { Quantity } from '../../record/quantity.js';
import type { DrugGiven } from '../../record/schema/record.js';
import { unitOfCode } from '../../record/units.js';
import type { DoseUnit } from '../../trade/drugs/doses/dosing.js';
import { amount, milligrams } from '../labs/measure.js';

/** Amount of a substance in 1 mL. */
interface Strength {
  readonly unit: 'mg' | '[iU]';
  readonly perMl: Decimal;
}

const perMillilitre =
  /(\d[\d ]*(?:\.\d+)?)\s*(g|mg|µg|ug|mcg|IU|units?|MIU)\s*(?:I\s*)?(?:\/|per|in)\s*(\d+(?:\.\d+)?)?\s*mL\b/iu;
const percent = /(\d+(?:\.\d+)?)\s*%/;
const ratio = /^\s*1\s*(?::|in)\s*(\d[\d ]*)\s*$/i;

const inMg: Readonly<Record<string, string>> = { g: '1000', mg: '1', µg: '0.001', ug: '0.001', mcg: '0.001' };

/** Reads `1 %`, `10 mg/mL`, `1 g/10 mL`, `5000 IU/mL`, `1:1000`; 1 % is 10 mg/mL. */
export function strengthOf(text: string): Strength | undefined {
  const [, figure = '', unit = '', of = '1'] = perMillilitre.exec(text) ?? [];
  if (unit !== '') {
    const value = new Decimal(figure.replaceAll(' ', '')).div(of);
    const mass = inMg[unit.toLowerCase()];
    if (mass !== undefined) return { unit: 'mg', perMl: value.times(mass) };
    return { unit: '[iU]', perMl: unit.toUpperCase() === 'MIU' ? value.times(1_000_000) : value };
  }
  const [, hundredth] = percent.exec(text) ?? [];
  if (hundredth !== undefined) return { unit: 'mg', perMl: new Decimal(hundredth).times(10) };
  const [, parts] = ratio.exec(text) ?? [];
  const number = Number(parts?.replaceAll(' ', ''));
  return number > 0 ? { unit: 'mg', perMl: new Decimal(1000).div(number) } : undefined;
}

/** What a dose comes to in a unit of the table of doses: as written, or volume times strength. */
export function doseIn({ dose, strength, drug }: DrugGiven, unit: DoseUnit): Decimal | undefined {
  const written = unit === 'mg' ? milligrams(dose) : (amount(dose, unit) ?? same(dose, unit));
  if (written || !isVolume(dose)) return written;
  const read = strengthOf(strength ?? '') ?? strengthOf(drug.text);
  return read?.unit === unit ? amount(dose, 'mL')?.times(read.perMl) : undefined;
}

export const isVolume = ({ code }: Quantity): boolean => unitOfCode(code)?.dimension === 'volume';

/** Units without a factor (mmol) are compared as they are. */
const same = ({ value, code, comparator }: Quantity, unit: string): Decimal | undefined =>
  code === unit && !comparator && !value.startsWith('-') ? new Decimal(value) : undefined;
