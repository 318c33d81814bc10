import { printQuantity, type Quantity, type Size } from './quantity.js';
import type { CaseRecord } from './schema/record.js';

/** Data of a record with every value as text: what is compared and what is digested. */
export type Plain = string | readonly Plain[] | PlainGroup;

/** Fields by name. */
export interface PlainGroup {
  readonly [name: string]: Plain;
}

/** True for a list of values. */
export function isList(value: Plain): value is readonly Plain[] {
  return Array.isArray(value);
}

/** True for fields by name. */
export function isGroup(value: Plain): value is PlainGroup {
  return typeof value === 'object' && !isList(value);
}

/** A field that a group itself has. */
export function fieldOf(group: PlainGroup, name: string): Plain | undefined {
  return Object.hasOwn(group, name) ? group[name] : undefined;
}

/**
 * A record with its values in one way of writing: times as full ISO 8601 with offset, quantities as number and unit,
 * `yes` and `no`, a concept without codes as its text. Two files that say the same give the same, whether YAML or JSON.
 * The address of the schema says nothing of the case and is left out.
 */
export function plainRecord(record: CaseRecord): PlainGroup {
  const { $schema: _schema, ...rest } = record;
  return groupOf(rest);
}

function groupOf(value: object): PlainGroup {
  return Object.fromEntries(
    Object.entries(value).flatMap(([name, field]: [string, unknown]): [string, Plain][] => {
      const plain = plainOf(field);
      return plain === undefined ? [] : [[name, plain]];
    }),
  );
}

function plainOf(value: unknown): Plain | undefined {
  if (value === undefined || value === null) return undefined;
  if (typeof value === 'boolean') return value ? 'yes' : 'no';
  if (typeof value !== 'object') return String(value);
  if (Array.isArray(value))
    return value.flatMap((item: unknown) => {
      const plain = plainOf(item);
      return plain === undefined ? [] : [plain];
    });
  return typedOf(value) ?? groupOf(value);
}

/** The text of what reading made an object of; undefined for a group of fields. */
function typedOf(value: object): string | undefined {
  if (isTime(value)) return value.iso;
  if (isQuantity(value)) return printQuantity(value);
  if (isSize(value)) return sizeText(value);
  if ('text' in value && 'span' in value && isQuantityLike(value.span)) return printQuantity(value.span);
  if ('text' in value && 'when' in value && isTimeLike(value.when)) return value.when.iso;
  if ('text' in value && 'codes' in value && Array.isArray(value.codes) && value.codes.length === 0)
    return String(value.text);
  return undefined;
}

function isTime(value: object): value is { iso: string } {
  return 'iso' in value && typeof value.iso === 'string' && ('epoch' in value || 'precision' in value);
}

const isTimeLike = (value: unknown): value is { iso: string } =>
  typeof value === 'object' && value !== null && isTime(value);

function isQuantity(value: object): value is Quantity {
  return (
    'value' in value &&
    typeof value.value === 'string' &&
    'unit' in value &&
    'code' in value &&
    typeof value.code === 'string'
  );
}

const isQuantityLike = (value: unknown): value is Quantity =>
  typeof value === 'object' && value !== null && isQuantity(value);

function isSize(value: object): value is Size {
  return 'text' in value && 'diameter' in value && isQuantityLike(value.diameter);
}

function sizeText({ diameter, upTo, length }: Size): string {
  const span = upTo ? `${printQuantity(diameter)} - ${printQuantity(upTo)}` : printQuantity(diameter);
  return length ? `${span} x ${printQuantity(length)}` : span;
}
