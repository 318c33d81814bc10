import { elements, profileElements } from '../corpus/definitions.js';
import type { Example } from '../corpus/examples.js';
import { isObject, itemsAt, type Json, type JsonObject, textAt } from '../corpus/json.js';
import {
  isPrimitive,
  isStructured,
  isTopLevel,
  type Operator,
  onResources,
  onSites,
  onText,
} from './operator.js';

const claims = (example: Example, accept: (e: JsonObject) => boolean) =>
  new Set(
    example.profiles
      .flatMap(url => profileElements(url))
      .filter(e => !String(e['id']).includes(':') && accept(e))
      .map(e => String(e['path'])),
  );

const requiredByProfile = (example: Example) => claims(example, e => Number(e['min']) > 0);
const singleByProfile = (example: Example) =>
  claims(example, e => e['max'] === '1' && textAt(e['base'], 'max') === '*');

export const cardinality: Operator[] = [
  onSites(
    'cardinality',
    'remove-required',
    s => s.element.min > 0 && s.key !== 'resourceType' && s.type !== 'xhtml',
    ({ holder, site }) => {
      delete holder[site.key];
    },
  ),
  onSites(
    'cardinality',
    'remove-required-by-profile',
    (s, ex) => s.element.min === 0 && requiredByProfile(ex).has(s.path),
    ({ holder, site }) => {
      delete holder[site.key];
      delete holder[`_${site.key}`];
    },
  ),
  onSites(
    'cardinality',
    'scalar-as-array',
    s => s.index === undefined && s.element.max === '1' && s.type !== 'xhtml',
    ({ set, site }) => set([site.value]),
  ),
  onSites(
    'cardinality',
    'scalar-as-pair',
    s => s.index === undefined && isPrimitive(s),
    ({ set, site }) => set([site.value, site.value]),
  ),
  onSites(
    'cardinality',
    'array-as-scalar',
    s => s.index === 0,
    ({ holder, site }) => {
      holder[site.key] = site.value;
    },
  ),
  onSites(
    'cardinality',
    'repeat-single-by-profile',
    (s, ex) => s.index === 0 && singleByProfile(ex).has(s.path),
    ({ holder, site }) => {
      holder[site.key] = [...itemsAt(holder, site.key), structuredClone(site.value)];
    },
  ),
  onSites(
    'cardinality',
    'remove-first-of-many',
    s => s.index === 0 && isTopLevel(s),
    ({ set }) => set(undefined),
  ),
  onSites(
    'cardinality',
    'duplicate-item',
    s => s.index === 0 && isStructured(s) && isTopLevel(s) && !['contained', 'entry'].includes(s.key),
    ({ holder, site }) => {
      holder[site.key] = [...itemsAt(holder, site.key), structuredClone(site.value)];
    },
  ),
];

export const types: Operator[] = [
  onSites(
    'type',
    'text-to-number',
    s => isPrimitive(s) && typeof s.value === 'string',
    ({ set }) => set(5),
  ),
  onSites(
    'type',
    'text-to-boolean',
    s => isPrimitive(s) && typeof s.value === 'string',
    ({ set }) => set(true),
  ),
  onSites(
    'type',
    'number-to-text',
    s => isPrimitive(s) && typeof s.value === 'number',
    ({ set, site }) => set(String(site.value)),
  ),
  onSites(
    'type',
    'boolean-to-text',
    s => isPrimitive(s) && typeof s.value === 'boolean',
    ({ set, site }) => set(String(site.value)),
  ),
  onSites(
    'type',
    'boolean-to-number',
    s => isPrimitive(s) && typeof s.value === 'boolean',
    ({ set }) => set(1),
  ),
  onSites(
    'type',
    'structure-to-text',
    s => isStructured(s),
    ({ set }) => set('text'),
  ),
  onSites(
    'type',
    'structure-to-number',
    s => isStructured(s),
    ({ set }) => set(7),
  ),
  onSites(
    'type',
    'primitive-to-structure',
    s => isPrimitive(s) && s.key !== 'resourceType',
    ({ set, site }) => set({ value: site.value }),
  ),
  onSites(
    'type',
    'item-to-array',
    s => s.index === 0,
    ({ set, site }) => set([site.value]),
  ),
  onSites(
    'type',
    'structure-of-other-type',
    s =>
      isStructured(s) &&
      ['CodeableConcept', 'Reference', 'Quantity', 'Period', 'Identifier'].includes(s.type),
    ({ set, site }) =>
      set(site.type === 'CodeableConcept' ? { start: '2020-01-01' } : { coding: [{ code: 'a' }] }),
  ),
];

const capital = (text: string) => text.charAt(0).toUpperCase() + text.slice(1);
const stem = (name: string) => name.slice(0, -3);
const isChoice = (s: { element: { name: string } }) => s.element.name.endsWith('[x]');
const samples: Record<string, Json> = {
  string: 'text',
  boolean: true,
  integer: 3,
  dateTime: '2020-02-03',
  date: '2020-02-03',
  time: '10:20:30',
  code: 'a',
  uri: 'urn:a:b',
  Quantity: { value: 1 },
  CodeableConcept: { text: 'text' },
  Period: { start: '2020-02-03' },
  Range: { low: { value: 1 } },
  Address: { text: 'text' },
  Age: { value: 1, system: 'http://unitsofmeasure.org', code: 'a' },
  Timing: { event: ['2020-02-03'] },
  Ratio: { numerator: { value: 1 }, denominator: { value: 2 } },
  Reference: { display: 'text' },
  Attachment: { title: 'text' },
  SampledData: { origin: { value: 1 }, period: 1, dimensions: 1, data: '1 2 3' },
};
const allowedSamples = (s: { element: { types: readonly string[] } }) =>
  s.element.types.filter(t => t in samples);
const otherAllowed = (s: { type: string; element: { types: readonly string[] } }) =>
  allowedSamples(s).filter(t => t !== s.type);

export const choice: Operator[] = [
  onSites(
    'choice',
    'second-choice-beside',
    s => isChoice(s) && otherAllowed(s).length > 0,
    ({ holder, site }) => {
      const type = otherAllowed(site)[0] ?? 'string';
      holder[stem(site.element.name) + capital(type)] = samples[type] ?? null;
    },
  ),
  onSites(
    'choice',
    'other-allowed-type',
    s => isChoice(s) && otherAllowed(s).length > 0,
    ({ holder, site }) => {
      delete holder[site.key];
      const type = otherAllowed(site).at(-1) ?? 'string';
      holder[stem(site.element.name) + capital(type)] = samples[type] ?? null;
    },
  ),
  onSites(
    'choice',
    'type-not-allowed',
    s => isChoice(s) && !s.element.types.includes('Address'),
    ({ holder, site }) => {
      delete holder[site.key];
      holder[`${stem(site.element.name)}Address`] = { text: 'text' };
    },
  ),
  onSites('choice', 'bare-choice-name', isChoice, ({ holder, site }) => {
    holder[stem(site.element.name)] = site.value;
    delete holder[site.key];
  }),
  onSites('choice', 'lower-case-type-suffix', isChoice, ({ holder, site }) => {
    holder[stem(site.element.name) + site.type.charAt(0).toLowerCase() + site.type.slice(1)] = site.value;
    delete holder[site.key];
  }),
  onSites(
    'choice',
    'suffix-kept-value-changed',
    s => isChoice(s) && isStructured(s),
    ({ set }) => set({ foo: 'text' }),
  ),
  onSites('choice', 'choice-as-array', isChoice, ({ set, site }) => set([site.value])),
];

export const unknownProperty: Operator[] = [
  onResources(
    'unknown property',
    'unknown-at-root',
    () => true,
    r => {
      r['wobble'] = 'text';
    },
  ),
  onSites(
    'unknown property',
    'unknown-in-structure',
    s => isStructured(s),
    ({ site, set }) => set({ ...(site.value as JsonObject), wobble: 'text' }),
  ),
  onSites(
    'unknown property',
    'misspelt-name',
    s => s.key !== 'resourceType' && s.element.min === 0,
    ({ holder, site }) => {
      const value = holder[site.key];
      delete holder[site.key];
      holder[`${site.key}s`] = value ?? null;
    },
  ),
  onSites(
    'unknown property',
    'upper-case-name',
    s => s.element.min === 0,
    ({ holder, site }) => {
      const value = holder[site.key];
      delete holder[site.key];
      holder[capital(site.key)] = value ?? null;
    },
  ),
  onResources(
    'unknown property',
    'unknown-underscore',
    () => true,
    r => {
      r['_wobble'] = { id: 'a' };
    },
  ),
  onResources(
    'unknown property',
    'comments-of-old-versions',
    () => true,
    r => {
      r['fhir_comments'] = ['text'];
    },
  ),
  onResources(
    'unknown property',
    'property-of-another-type',
    r => r['resourceType'] !== 'Patient',
    r => {
      r['multipleBirthInteger'] = 2;
    },
  ),
  onSites(
    'unknown property',
    'resourceType-in-structure',
    s => isStructured(s),
    ({ site, set }) => set({ resourceType: 'Patient', ...(site.value as JsonObject) }),
  ),
  onResources(
    'unknown property',
    'unknown-resource-type',
    () => true,
    r => {
      r['resourceType'] = 'Proceedure';
    },
  ),
  onResources(
    'unknown property',
    'lower-case-resource-type',
    () => true,
    r => {
      r['resourceType'] = String(r['resourceType']).toLowerCase();
    },
  ),
  onResources(
    'unknown property',
    'no-resource-type',
    () => true,
    r => {
      delete r['resourceType'];
    },
  ),
  onResources(
    'unknown property',
    'data-type-as-resource',
    () => true,
    r => {
      r['resourceType'] = 'HumanName';
    },
  ),
  onResources(
    'unknown property',
    'property-of-later-version',
    r => r['resourceType'] === 'Procedure' || r['resourceType'] === 'Device',
    r => {
      r['recorded'] = '2020-02-03';
    },
  ),
];

export const emptyValue: Operator[] = [
  onSites(
    'empty value',
    'empty-text',
    s => isPrimitive(s) && typeof s.value === 'string',
    ({ set }) => set(''),
  ),
  onSites(
    'empty value',
    'blank-text',
    s => isPrimitive(s) && typeof s.value === 'string',
    ({ set }) => set('  '),
  ),
  onSites(
    'empty value',
    'empty-structure',
    s => isStructured(s),
    ({ set }) => set({}),
  ),
  onSites(
    'empty value',
    'structure-with-only-id',
    s => isStructured(s),
    ({ set }) => set({ id: 'a' }),
  ),
  onSites(
    'empty value',
    'empty-array',
    s => s.index === 0,
    ({ holder, site }) => {
      holder[site.key] = [];
    },
  ),
  onSites(
    'empty value',
    'null-value',
    s => s.index === undefined,
    ({ set }) => set(null),
  ),
  onSites(
    'empty value',
    'null-item',
    s => s.index !== undefined,
    ({ set }) => set(null),
  ),
  onSites(
    'empty value',
    'null-structure-added',
    s => s.index === 0 && isStructured(s),
    ({ holder, site }) => {
      holder[site.key] = [...itemsAt(holder, site.key), null];
    },
  ),
  onSites(
    'empty value',
    'empty-structure-added',
    s => s.index === 0 && isStructured(s),
    ({ holder, site }) => {
      holder[site.key] = [...itemsAt(holder, site.key), {}];
    },
  ),
  onSites(
    'empty value',
    'missing-element-empty-array',
    s =>
      isStructured(s) &&
      elements(s.owner, s.element.path).length === 0 &&
      !('extension' in (s.value as JsonObject)),
    ({ set, site }) => set({ ...(site.value as JsonObject), extension: [] }),
  ),
  onResources(
    'empty value',
    'root-empty-object',
    () => true,
    r => {
      r['text'] = {};
    },
  ),
];

const why = { url: 'http://hl7.org/fhir/StructureDefinition/data-absent-reason', valueCode: 'unknown' };
const primitiveArray = (s: { index?: number; value: Json }) => s.index === 0 && !isObject(s.value);

export const nullPadding: Operator[] = [
  onSites('null padding', 'valid-extension-beside-value', isPrimitive, ({ holder, site }) => {
    if (site.index === undefined) holder[`_${site.key}`] = { id: 'beside' };
    else
      holder[`_${site.key}`] = itemsAt(holder, site.key).map((_, i) =>
        i === site.index ? { id: 'beside' } : null,
      );
  }),
  onSites(
    'null padding',
    'absent-reason-instead',
    s => isPrimitive(s) && s.index === undefined && s.key !== 'id' && s.key !== 'url',
    ({ holder, site }) => {
      delete holder[site.key];
      holder[`_${site.key}`] = { extension: [why] };
    },
  ),
  onSites(
    'null padding',
    'valid-padded-array',
    s => primitiveArray(s) && isPrimitive(s),
    ({ holder, site }) => {
      holder[site.key] = [null, ...itemsAt(holder, site.key)];
      holder[`_${site.key}`] = [
        { extension: [why] },
        ...itemsAt(holder, site.key)
          .slice(1)
          .map(() => null),
      ];
    },
  ),
  onSites(
    'null padding',
    'null-without-partner',
    s => primitiveArray(s) && isPrimitive(s),
    ({ holder, site }) => {
      holder[site.key] = [null, ...itemsAt(holder, site.key)];
    },
  ),
  onSites(
    'null padding',
    'both-null',
    s => primitiveArray(s) && isPrimitive(s),
    ({ holder, site }) => {
      holder[site.key] = [null, ...itemsAt(holder, site.key)];
      holder[`_${site.key}`] = [
        null,
        ...itemsAt(holder, site.key)
          .slice(1)
          .map(() => ({ id: 'a' })),
      ];
    },
  ),
  onSites(
    'null padding',
    'partner-too-short',
    s => primitiveArray(s) && isPrimitive(s),
    ({ holder, site }) => {
      holder[site.key] = [...itemsAt(holder, site.key), 'second', 'third'];
      holder[`_${site.key}`] = [{ id: 'a' }];
    },
  ),
  onSites(
    'null padding',
    'partner-too-long',
    s => primitiveArray(s) && isPrimitive(s),
    ({ holder, site }) => {
      holder[`_${site.key}`] = [...itemsAt(holder, site.key).map(() => null), { id: 'late' }];
    },
  ),
  onSites(
    'null padding',
    'partner-object-for-array',
    s => primitiveArray(s) && isPrimitive(s),
    ({ holder, site }) => {
      holder[`_${site.key}`] = { id: 'a' };
    },
  ),
  onSites(
    'null padding',
    'partner-array-for-scalar',
    s => isPrimitive(s) && s.index === undefined,
    ({ holder, site }) => {
      holder[`_${site.key}`] = [{ id: 'a' }];
    },
  ),
  onSites(
    'null padding',
    'partner-text',
    s => isPrimitive(s) && s.index === undefined,
    ({ holder, site }) => {
      holder[`_${site.key}`] = 'text';
    },
  ),
  onSites(
    'null padding',
    'partner-empty',
    s => isPrimitive(s) && s.index === undefined,
    ({ holder, site }) => {
      holder[`_${site.key}`] = {};
    },
  ),
  onSites(
    'null padding',
    'partner-null',
    s => isPrimitive(s) && s.index === undefined,
    ({ holder, site }) => {
      holder[`_${site.key}`] = null;
    },
  ),
  onSites(
    'null padding',
    'partner-of-structure',
    s => isStructured(s) && s.index === undefined,
    ({ holder, site }) => {
      holder[`_${site.key}`] = { id: 'a' };
    },
  ),
  onSites(
    'null padding',
    'partner-unknown-property',
    s => isPrimitive(s) && s.index === undefined,
    ({ holder, site }) => {
      holder[`_${site.key}`] = { wobble: 'text' };
    },
  ),
  onSites(
    'null padding',
    'partner-with-value',
    s => isPrimitive(s) && s.index === undefined,
    ({ holder, site }) => {
      holder[`_${site.key}`] = { value: 'text' };
    },
  ),
];

export const json: Operator[] = [
  onText('json', 'trailing-comma', text => `${text.slice(0, -1)},}`),
  onText('json', 'cut-short', text => text.slice(0, Math.floor(text.length * 0.7))),
  onText('json', 'duplicate-property', text => text.replace('{', '{"language":"en","language":"en",')),
  onText('json', 'comment', text => text.replace('{', '{/* text */')),
  onText('json', 'single-quotes', text => text.replace('"resourceType"', "'resourceType'")),
  onText('json', 'array-at-root', text => `[${text}]`),
  onText('json', 'text-after-end', text => `${text} x`),
  onText('json', 'byte-order-mark', text => `\uFEFF${text}`),
  onText('json', 'raw-control-character', text => text.replace('"status":"', '"status":"\u0001')),
  onText('json', 'not-a-number', text => text.replace(/"value":-?[\d.]+/, '"value":NaN')),
  onText('json', 'leading-zero', text => text.replace(/"value":(-?\d)/, '"value":0$1')),
  onText('json', 'leading-plus', text => text.replace(/"value":(\d)/, '"value":+$1')),
  onText('json', 'valid-exponent', text => text.replace(/"value":(-?\d+)([,}])/, '"value":$1e0$2')),
  onText('json', 'valid-escapes', text => text.replace('"resourceType"', '"resource\\u0054ype"')),
];
