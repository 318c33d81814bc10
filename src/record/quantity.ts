import { anyOf, type Message, message } from '../findings/message.js';
import { Decimal } from './decimal.js';
import { oneSlipAway } from './suggest.js';
import { type Dimension, type Unit, unitNamed, unitOfCode, units } from './units.js';

/** A measured amount with the digits as written; `code` is UCUM. */
export interface Quantity {
  /** Decimal text in FHIR's grammar, trailing zeros kept: `5.0`, `0.700`, `120`. */
  readonly value: string;
  readonly comparator?: '<' | '<=' | '>=' | '>';
  /** Printed unit: `Fr`, `mm`, `µmol/L`; empty for a bare number. */
  readonly unit: string;
  /** UCUM code. */
  readonly code: string;
}

/** A device size: a diameter (or calibre), a span of diameters, and a length where written. */
export interface Size {
  /** As written. */
  readonly text: string;
  readonly diameter: Quantity;
  /** Upper end where a span was written (`500-700 µm`). */
  readonly upTo?: Quantity;
  readonly length?: Quantity;
}

/** Either the thing read, or why it could not be read. */
export type Read<T> =
  | { readonly ok: true; readonly value: T }
  | { readonly ok: false; readonly why: Message };

const fail = (why: Message): Read<never> => ({ ok: false, why });

/** FHIR's decimal grammar without exponent. */
const NUMBER = /^[+-]?(?:0|[1-9]\d*)(?:\.\d+)?$/;

/** Checks a number as people write it and keeps its digits. A leading plus is dropped; `.5` and `5,0` are refused. */
export function readDecimal(text: string): Read<string> {
  const trimmed = text.trim().replace('−', '-');
  if (NUMBER.test(trimmed)) return { ok: true, value: trimmed.replace(/^\+/, '') };
  if (/^[+-]?\d+,\d+$/.test(trimmed)) return fail(message('reading.comma', { text: trimmed }));
  if (/^[+-]?\.\d+$/.test(trimmed))
    return fail(message('reading.zero', { text: `0${trimmed.replace(/^[+-]/, '')}` }));
  if (/^[+-]?\d+(\.\d+)?e/i.test(trimmed)) return fail(message('reading.exponent', { text: trimmed }));
  return fail(message('reading.noNumber', { text: trimmed }));
}

const SPLIT = /^\s*(<=|>=|<|>|≤|≥)?\s*([+−-]?[\d.,]+(?:e[+-]?\d+)?)\s*(.*?)\s*$/iu;

/**
 * Reads `7 Fr`, `120 µmol/L`, `4.2 Gy·cm2`, `< 5 mL`. Why one cannot be read is a sentence.
 * @param dimensions what the field measures; a unit of another dimension is refused and the right ones are named
 */
export function readQuantity(text: string, dimensions: readonly Dimension[]): Read<Quantity> {
  const parts = SPLIT.exec(text);
  if (!parts) return fail(message('reading.noStart', { text }));
  const number = readDecimal(parts[2] ?? '');
  if (!number.ok) return number;
  const written = parts[3] ?? '';
  const unit = unitNamed(written);
  if (!unit || !dimensions.includes(unit.dimension)) {
    const wanted = examplesOf(dimensions);
    if (written === '') return fail(message('reading.noUnit', { text, wanted }));
    if (unit) return fail(message('reading.otherUnit', { unit: written, wanted }));
    const near = nearUnits(written, dimensions);
    return fail(
      near.length > 0
        ? message('reading.nearUnit', { unit: written, near: anyOf(near) })
        : message('reading.unknownUnit', { unit: written, wanted }),
    );
  }
  const comparator = comparators[parts[1] ?? ''];
  return {
    ok: true,
    value: { value: number.value, ...(comparator && { comparator }), unit: unit.display, code: unit.code },
  };
}

const comparators: Record<string, '<' | '<=' | '>=' | '>'> = {
  '<': '<',
  '<=': '<=',
  '≤': '<=',
  '>=': '>=',
  '≥': '>=',
  '>': '>',
};

function examplesOf(dimensions: readonly Dimension[]): string {
  return units
    .filter(unit => dimensions.includes(unit.dimension) && unit.display !== '')
    .map(unit => unit.display)
    .join(', ');
}

/** Printed units with a spelling one slip away. Several may be, and they are not the same: a person must choose. */
function nearUnits(written: string, dimensions: readonly Dimension[]): string[] {
  const here = units.filter(unit => dimensions.includes(unit.dimension) && unit.display !== '');
  return here.filter(unit => oneSlipAway(written, unit.spellings).length > 0).map(unit => unit.display);
}

/**
 * Reads a time span, or one as consoles show it: `5:30` is 5 min 30 s, `1:05:30` is 1 h 5 min 30 s, both kept as whole
 * seconds.
 */
export function readConsoleTime(text: string): Read<Quantity> {
  const shown = /^\s*(?:(\d{1,3}):)?(\d{1,3}):([0-5]\d)\s*$/.exec(text);
  if (!shown) return readQuantity(text, ['duration']);
  const [, hours, minutes = '0', seconds = '0'] = shown;
  if (hours !== undefined && Number(minutes) > 59) return fail(message('reading.minutes', { text, minutes }));
  const total = (Number(hours ?? 0) * 60 + Number(minutes)) * 60 + Number(seconds);
  return { ok: true, value: { value: String(total), unit: 's', code: 's' } };
}

const SIZE_DIMENSIONS: readonly Dimension[] = ['length', 'calibre'];

/**
 * Reads a device size: `7 Fr`, `21 G`, `0.035 in`, `3 mm x 40 mm`, `3 x 40 mm`, `8.5 Fr x 35 cm`, `500-700 µm`.
 * The first part is the diameter (or calibre), the second the length.
 */
export function readSize(text: string): Read<Size> {
  const parts = text.split(/\s*[x×]\s*/iu);
  if (parts.length > 2) return fail(message('reading.parts', { text, n: `${parts.length}` }));
  const [first = '', second] = parts;
  let length: Quantity | undefined;
  if (second !== undefined) {
    const read = readQuantity(second, ['length']);
    if (!read.ok) return read;
    length = read.value;
  }
  // `3 x 40 mm` shares the unit of the second part.
  const shared = /^[\d.,\s-]+$/.test(first) && length ? `${first} ${length.unit}` : first;
  const span = /^\s*([\d.]+)\s*[-–]\s*([\d.]+)\s*(\D.*)$/u.exec(shared);
  const diameter = readQuantity(span ? `${span[1]} ${span[3]}` : shared, SIZE_DIMENSIONS);
  if (!diameter.ok) return diameter;
  let upTo: Quantity | undefined;
  if (span) {
    const read = readQuantity(`${span[2]} ${span[3]}`, SIZE_DIMENSIONS);
    if (!read.ok) return read;
    upTo = read.value;
  }
  return {
    ok: true,
    value: { text: text.trim(), diameter: diameter.value, ...(upTo && { upTo }), ...(length && { length }) },
  };
}

/** Size of each unit in the base unit of its dimension. */
const factors = new Map(
  units.flatMap(({ code, factor }) =>
    factor ? [[code, { num: new Decimal(factor.num), den: new Decimal(factor.den) }] as const] : [],
  ),
);

/** What was worked out before: many rules compare the same few quantities. */
const inBase = new WeakMap<Quantity, Decimal>();

/** A quantity in the base unit of its dimension (see `units`), or undefined where no factor exists (gauge, months). */
export function inBaseUnit(quantity: Quantity): Decimal | undefined {
  const factor = factors.get(quantity.code);
  const known = inBase.get(quantity);
  if (known || !factor) return known;
  const base = new Decimal(quantity.value).times(factor.num).div(factor.den);
  inBase.set(quantity, base);
  return base;
}

/** Converts to another unit of the same dimension; undefined when that cannot be done by a factor. */
export function convert(quantity: Quantity, code: string): Decimal | undefined {
  const from = unitOfCode(quantity.code);
  const to = unitOfCode(code);
  const factor = factors.get(code);
  const base = inBaseUnit(quantity);
  if (!base || !to || !factor || !from || !sameMeasure(from, to)) return undefined;
  return base.times(factor.den).div(factor.num);
}

const lengths = new Set<Dimension>(['length', 'calibre']);

/** French sizes are lengths too: both have millimetres as base. */
function sameMeasure(a: Unit, b: Unit): boolean {
  return a.dimension === b.dimension || (lengths.has(a.dimension) && lengths.has(b.dimension));
}

/** `7 Fr`, `< 5 mL`, `120 µmol/L`: how a quantity is printed. */
export function printQuantity(quantity: Quantity): string {
  const tight = quantity.unit === '%' || quantity.unit === '';
  return `${quantity.comparator ? `${quantity.comparator} ` : ''}${quantity.value}${tight ? '' : ' '}${quantity.unit}`;
}
