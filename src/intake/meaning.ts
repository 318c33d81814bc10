import { nameParts } from '../delivery/patient/names.js';
import { inBaseUnit, type Quantity, readConsoleTime, readQuantity, readSize } from '../record/quantity.js';
import type { Tree } from '../record/read.js';
import { readWhen, type TimeContext } from '../record/time.js';
import { type Dimension, unitOfCode, units } from '../record/units.js';

const everyDimension: readonly Dimension[] = [...new Set(units.map(unit => unit.dimension))];

/** Numbers and texts in which every sign counts: two lots that differ in a letter are two lots. */
const EXACT = new Set([
  ...['id', 'accession', 'lot', 'serial', 'label', 'udi', 'reference', 'model', 'system', 'code'],
  ...['phone', 'study', 'series', 'file', 'key', 'display', 'version'],
]);

/**
 * What a value says, however it is written: values with the same text here say the same. `5.0 mg` and `0.005 g`, `5:30`
 * and `330 s` as a fluoroscopy time, a name in capitals. Sameness goes both ways and on, so that the order in which values are
 * compared makes no difference.
 * @param name of the field that the value stands in
 */
export function meaningOf(value: Tree, name: string, context: TimeContext): string {
  if (typeof value === 'boolean') return value ? 'yes' : 'no';
  if (typeof value === 'string') return textMeaning(value, name, context);
  if (Array.isArray(value)) return `[${value.map(item => meaningOf(item, name, context)).join(',')}]`;
  const fields = Object.entries(value);
  const [only] = fields;
  // A concept without codes is its text.
  if (fields.length === 1 && only?.[0] === 'text') return meaningOf(only[1], name, context);
  if (typeof value['family'] === 'string') return nameMeaning(Object.values(value).flat().join(' '));
  const inner = 'system' in value ? 'id' : undefined;
  const said = fields
    .map(([field, part]) => `${JSON.stringify(field)}:${meaningOf(part, inner ?? field, context)}`)
    .sort();
  return `{${said.join(',')}}`;
}

function textMeaning(text: string, name: string, context: TimeContext): string {
  const plain = text.normalize('NFC').trim().replace(/\s+/g, ' ');
  // A text as long as this is no amount.
  if (plain.length > 60) return JSON.stringify(plain);
  if (EXACT.has(name)) return JSON.stringify(plain);
  const amount = /\d/.test(plain) ? amountMeaning(plain, name, context) : undefined;
  if (amount !== undefined) return amount;
  if (name === 'name') return nameMeaning(plain);
  const small = plain.toLowerCase();
  return JSON.stringify(small === 'true' ? 'yes' : small === 'false' ? 'no' : small);
}

const nameMeaning = (text: string) => `name:${[...nameParts(text)].sort().join(' ')}`;

function amountMeaning(text: string, name: string, context: TimeContext): string | undefined {
  if (name === 'fluoroscopyTime') {
    const shown = readConsoleTime(text);
    if (shown.ok) return quantityMeaning(shown.value);
  }
  const when = readWhen(text, context);
  // A year alone is a number as well.
  if (when.ok && when.value.precision !== 'year')
    return `time:${when.value.moment ? when.value.moment.epoch : when.value.iso}`;
  const quantity = readQuantity(text, everyDimension);
  if (quantity.ok) return quantityMeaning(quantity.value);
  const size = readSize(text);
  if (!size.ok) return undefined;
  const { diameter, upTo, length } = size.value;
  return `size:${[diameter, upTo, length].map(part => (part ? quantityMeaning(part) : '')).join(' x ')}`;
}

/** Drug doses have milligrams and bodies grams as their base. */
function quantityMeaning(quantity: Quantity): string {
  const { code, value, comparator = '' } = quantity;
  const dimension = unitOfCode(code)?.dimension;
  const base = inBaseUnit(quantity);
  if (!base) return `${comparator}${value.replace(/(\.\d*?)0+$/, '$1').replace(/\.$/, '')} ${code}`;
  const of = dimension === 'calibre' ? 'length' : dimension === 'mass' ? 'dose' : dimension;
  const number = dimension === 'mass' ? base.times(1000) : base;
  return `${comparator}${number.toString()} ${of}`;
}
