import fc from 'fast-check';
import { z } from 'zod';
import { recordSchema } from '../../../src/record/schema/record.js';

type Value = string | boolean | Value[] | { [name: string]: Value };

const key = fc
  .stringMatching(/^[A-Za-z][A-Za-z0-9_-]{0,8}$/)
  .filter(name => name !== 'constructor' && name !== 'prototype');
/** Texts that a file format may take for something else. */
const words = fc.oneof(
  fc.constantFrom(
    'none',
    'yes',
    'true',
    '5.0',
    '007',
    '- a',
    '# a',
    'a: b',
    '{a}',
    '"',
    "'",
    '|',
    '~',
    'null',
    '1e3',
    'a\nb',
    'a\n\n  b',
    'é ß 点',
    '\u2028',
    '@',
    '&a *b',
    '%',
    '2024-03-14',
  ),
  fc.string({ unit: 'grapheme', minLength: 1, maxLength: 30 }),
);
const printable = words
  .map(text => text.trim())
  .filter(text => text !== '' && !/[\p{Cc}\p{Cs}\ufffe\uffff]/u.test(text.replace(/[\n\t]/g, '')));
const scanned = fc
  .string({
    unit: fc.constantFrom('0', '1', 'A', '(', ')', ' ', '\u001d', '\u001e', '\u0004'),
    minLength: 1,
    maxLength: 20,
  })
  .filter(scan => scan.trim() !== '');

/** A value of a field as somebody could write it, from the schema alone. */
function anyValue(schema: z.core.$ZodType, name: string): fc.Arbitrary<Value> {
  const examples: unknown = z.globalRegistry.get(schema)?.['examples'];
  if (Array.isArray(examples)) return fc.constantFrom(...examples.map(String));
  if (schema instanceof z.ZodOptional) return anyValue(schema.unwrap(), name);
  if (schema instanceof z.ZodPipe) return anyValue(schema.in, name);
  if (schema instanceof z.ZodUnion) return fc.oneof(...schema.options.map(option => anyValue(option, name)));
  if (schema instanceof z.ZodLiteral) return fc.constantFrom(...[...schema.values].map(String));
  if (schema instanceof z.ZodEnum) return fc.constantFrom(...schema.options.map(String));
  if (schema instanceof z.ZodBoolean) return fc.boolean();
  if (schema instanceof z.ZodNumber) return fc.nat({ max: 2_147_483_647 }).map(String);
  if (schema instanceof z.ZodArray)
    return fc.array(anyValue(schema.element, name), { minLength: 1, maxLength: 3 });
  if (schema instanceof z.ZodRecord)
    return fc.dictionary(key, anyValue(schema.valueType, name), {
      minKeys: 1,
      maxKeys: 3,
      noNullPrototype: true,
    });
  if (schema instanceof z.ZodObject) return groupOf(schema);
  return textOf(schema, name);
}

function textOf(schema: z.core.$ZodType, name: string): fc.Arbitrary<Value> {
  if (name === 'label') return scanned;
  if (name === 'timeZone') return fc.constant('Asia/Kolkata');
  const { pattern } = z.toJSONSchema(schema, { io: 'input' });
  if (pattern === undefined) return printable;
  if (pattern.startsWith('^\\d{4}')) return fc.constantFrom('2024-03-14', '2024-02-29');
  if (pattern.includes('[A-Za-z][')) return key;
  if (pattern.startsWith('^(urn'))
    return fc.constantFrom('urn:oid:2.16.840.1.113883.19.5', 'https://a.example/b?c=d');
  if (pattern.startsWith('^[0-2]')) return fc.constantFrom('1.2.840.99', '2.25.7');
  if (pattern === '^\\d+$') return fc.constantFrom('0', '007', '12');
  return fc.constantFrom('a.png', 'folder/b (1).jpg');
}

function groupOf(schema: z.ZodObject): fc.Arbitrary<Value> {
  const fields = Object.entries(schema.shape) as [string, z.core.$ZodType][];
  const model = Object.fromEntries(fields.map(([name, field]) => [name, anyValue(field, name)]));
  const requiredKeys = fields.flatMap(([name, field]) => (field instanceof z.ZodOptional ? [] : [name]));
  return fc.record(model, { requiredKeys }).map((group): Value => {
    // A side is the side of a site.
    if (!('site' in schema.shape) || 'site' in group) return group;
    const { side: _side, ...rest } = group;
    return rest;
  });
}

/** A record of any shape that the schema allows, with times that can be read. */
export const anyRecord: fc.Arbitrary<Value> = groupOf(recordSchema({}));
