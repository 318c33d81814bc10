import { Decimal } from '../../record/decimal.js';
import { unitOfCode } from '../../record/units.js';

/** A number with the digits that stand in the file, and its unit in UCUM. */
export interface DoseFigure {
  readonly value: string;
  readonly unit: string;
}

/** A Decimal String (PS3.5, 6.2) without an exponent, its digits kept: `1.230e-3` is `0.001230`. Undefined for anything else. */
export function plainDigits(text: string): string | undefined {
  const parts = /^([+-]?)(\d{0,16})(?:\.(\d{0,16}))?(?:[eE]([+-]?\d{1,2}))?$/.exec(text.trim());
  if (!parts) return undefined;
  const [, sign = '', whole = '', decimals = '', exponent = '0'] = parts;
  if (whole === '' && decimals === '') return undefined;
  const power = Number(exponent) - decimals.length;
  const value = new Decimal(`${whole}${decimals}`).times(new Decimal(10).pow(power));
  return `${sign === '-' && !value.isZero() ? '-' : ''}${value.toFixed(Math.max(0, -power))}`;
}

/** Decimals that stand behind the point. */
const placesOf = (value: string) => value.split('.')[1]?.length ?? 0;

/** The same amount in another unit of the same dimension, exact, with as many digits as it has; undefined where none leads there. */
export function inUnit({ value, unit }: DoseFigure, code: string): string | undefined {
  if (unit === code) return value;
  const from = unitOfCode(unit);
  const to = unitOfCode(code);
  if (!from?.factor || !to?.factor || from.dimension !== to.dimension) return undefined;
  const factor = new Decimal(from.factor.num).times(to.factor.den).div(from.factor.den).div(to.factor.num);
  const found = new Decimal(value).times(factor);
  const shift = factor.log(10);
  // A power of ten moves the point; anything else (minutes) has the digits that the product has.
  return found.toFixed(shift.isInteger() ? Math.max(0, placesOf(value) - shift.toNumber()) : undefined);
}

/** The exact sum, with as many places as the part that has most; undefined where a part has another dimension. */
export function summed(parts: readonly DoseFigure[], unit: string): DoseFigure | undefined {
  const values = parts.map(part => inUnit(part, unit));
  if (values.length === 0 || values.includes(undefined)) return undefined;
  const known = values.filter(value => value !== undefined);
  const sum = known.reduce((total, value) => total.plus(value), new Decimal(0));
  return { value: sum.toFixed(Math.max(...known.map(placesOf), sum.decimalPlaces())), unit };
}

/** Half of the last place that is written. */
const halfPlace = (value: string) => new Decimal(10).pow(-placesOf(value)).div(2);

/** True where a typed number is what the other one is when it is rounded, in any usual way, to the typed digits. */
export function sameRounded(typed: string, exact: string): boolean {
  const apart = new Decimal(typed).minus(exact).abs();
  // Less than a whole place: some consoles cut the digits off.
  return (
    apart.lessThanOrEqualTo(halfPlace(typed)) ||
    (apart.lessThan(halfPlace(typed).times(2)) && new Decimal(typed).lessThan(exact))
  );
}

/** The power of ten between two numbers that are otherwise the same to the typed digits; undefined where there is none. */
export function powerBetween(typed: string, exact: string): number | undefined {
  if (new Decimal(typed).isZero() || new Decimal(exact).isZero()) return undefined;
  return [-4, -3, -2, -1, 1, 2, 3, 4].find(power => {
    const moved = new Decimal(exact).times(new Decimal(10).pow(power));
    // With two digits or more: one digit alone agrees too often by chance.
    return typed.replace(/^0[.]?0*|[.]/g, '').length >= 2 && sameRounded(typed, moved.toFixed());
  });
}

/**
 * Whether a total and the sum of its parts say the same: within half of the last place of each number, or half a per
 * cent of the total (machines round each event; common practice, no source).
 */
export function agree(total: string, sum: string, parts: readonly string[]): boolean {
  const places = parts.reduce((room, part) => room.plus(halfPlace(part)), halfPlace(total));
  const share = new Decimal(total).abs().times('0.005');
  return new Decimal(total).minus(sum).abs().lessThanOrEqualTo(Decimal.max(places, share));
}
