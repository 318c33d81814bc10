import { isObject, type JsonObject, textAt } from '../corpus/json.js';
import { isPrimitive, type Operator, onSites, onValues } from './operator.js';

const codes = ['code'];
const texts = ['string'];
const plainText = ['string', 'markdown'];

export const primitive: Operator[] = [
  onValues('primitive', 'code-inner-double-space', codes, 'a  b'),
  onValues('primitive', 'code-leading-space', codes, ' final'),
  onValues('primitive', 'code-trailing-space', codes, 'final '),
  onValues('primitive', 'code-with-tab', codes, 'fin\tal'),
  onValues('primitive', 'id-underscore', ['id'], 'under_score'),
  onValues('primitive', 'id-too-long', ['id'], 'a'.repeat(65)),
  onValues('primitive', 'id-slash', ['id'], 'a/b'),
  onValues('primitive', 'id-space', ['id'], 'a b'),
  onValues('primitive', 'id-64-valid', ['id'], 'a'.repeat(64)),
  onSites(
    'primitive',
    'resource-id-underscore',
    s => s.key === 'id' && s.pointer.length === 1,
    ({ set }) => set('under_score'),
  ),
  onSites(
    'primitive',
    'resource-id-too-long',
    s => s.key === 'id' && s.pointer.length === 1,
    ({ set }) => set('a'.repeat(65)),
  ),
  onValues('primitive', 'uri-with-space', ['uri'], 'http://example.org/a b'),
  onValues('primitive', 'uri-inner-space-short', ['uri'], 'a b'),
  onValues('primitive', 'url-with-space', ['url'], 'http://example.org/a b'),
  onValues('primitive', 'url-no-scheme', ['url'], 'example'),
  onValues('primitive', 'canonical-with-space', ['canonical'], 'http://example.org/a b'),
  onSites(
    'primitive',
    'identifier-system-relative',
    s => s.element.path === 'Identifier.system',
    ({ set }) => set('local/system'),
  ),
  onSites(
    'primitive',
    'coding-system-relative',
    s => s.element.path === 'Coding.system',
    ({ set }) => set('local'),
  ),
  onSites(
    'primitive',
    'identifier-system-bad-oid',
    s => s.element.path === 'Identifier.system',
    ({ set }) => set('urn:oid:1.2.03'),
  ),
  onSites(
    'primitive',
    'identifier-system-bad-uuid',
    s => s.element.path === 'Identifier.system',
    ({ set }) => set('urn:uuid:12345'),
  ),
  onSites(
    'primitive',
    'identifier-uri-value-not-uri',
    s => s.type === 'Identifier',
    ({ set, site }) =>
      set({ ...(site.value as JsonObject), system: 'urn:ietf:rfc:3986', value: 'not a uri' }),
  ),
  onValues('primitive', 'base64-bad-character', ['base64Binary'], 'AAAA*AAA'),
  onValues('primitive', 'base64-bad-length', ['base64Binary'], 'AAAAA'),
  onValues('primitive', 'base64-spaced-valid', ['base64Binary'], 'AAAA BBBB'),
  onValues('primitive', 'positive-zero', ['positiveInt'], 0),
  onValues('primitive', 'positive-negative', ['positiveInt'], -1),
  onValues('primitive', 'unsigned-negative', ['unsignedInt'], -1),
  onValues('primitive', 'integer-fraction', ['integer', 'positiveInt', 'unsignedInt'], 1.5),
  onValues('primitive', 'integer-too-large', ['integer', 'positiveInt', 'unsignedInt'], 2_147_483_648),
  onValues('primitive', 'integer-largest-valid', ['integer', 'positiveInt', 'unsignedInt'], 2_147_483_647),
  onValues('primitive', 'decimal-text', ['decimal'], '1.5'),
  onValues('primitive', 'decimal-very-precise-valid', ['decimal'], 1.123456789012),
  onValues('primitive', 'decimal-negative-valid', ['decimal'], -4.5),
  onValues('primitive', 'boolean-capital', ['boolean'], 'True'),
  onValues('primitive', 'text-control-character', plainText, 'bell \u0007 here'),
  onValues('primitive', 'text-leading-space', texts, ' text'),
  onValues('primitive', 'text-tab-and-break-valid', plainText, 'line one\r\n\tline two'),
  onValues('primitive', 'text-no-break-space-only', texts, '\u00a0'),
  onValues('primitive', 'text-other-script-valid', plainText, 'Størrelse 5 mm – ø'),
  onValues('primitive', 'text-emoji-valid', plainText, 'ok \u{1F44D}'),
  onValues('primitive', 'text-markup', texts, 'a <b>bold</b> word'),
  onValues('primitive', 'time-25-hours', ['time'], '25:00:00'),
  onValues('primitive', 'time-no-seconds', ['time'], '10:20'),
  onSites(
    'primitive',
    'language-malformed',
    s => s.key === 'language' && s.type === 'code',
    ({ set }) => set('en_US'),
  ),
  onSites(
    'primitive',
    'attachment-type-not-mime',
    s => s.element.path === 'Attachment.contentType',
    ({ set }) => set('pdf'),
  ),
];

const moments = ['dateTime'];
const days = ['date', 'dateTime'];
const all = ['date', 'dateTime', 'instant'];

export const date: Operator[] = [
  onValues('date', 'february-29-common-year', days, '2023-02-29'),
  onValues('date', 'february-29-leap-year-valid', days, '2024-02-29'),
  onValues('date', 'february-29-century', days, '1900-02-29'),
  onValues('date', 'february-30', days, '2024-02-30'),
  onValues('date', 'april-31', days, '2023-04-31'),
  onValues('date', 'month-13', days, '2023-13-01'),
  onValues('date', 'month-00', days, '2023-00-10'),
  onValues('date', 'day-00', days, '2023-05-00'),
  onValues('date', 'day-32', days, '2023-05-32'),
  onValues('date', 'single-digit-month', days, '2023-5-04'),
  onValues('date', 'slashes', days, '2023/05/04'),
  onValues('date', 'day-first', days, '04-05-2023'),
  onValues('date', 'compact', days, '20230504'),
  onValues('date', 'two-digit-year', days, '23'),
  onValues('date', 'year-0000', days, '0000'),
  onValues('date', 'year-10000', days, '10000-01-01'),
  onValues('date', 'trailing-dash', days, '2023-05-'),
  onValues('date', 'year-only-valid', days, '2023'),
  onValues('date', 'year-month-valid', days, '2023-05'),
  onValues('date', 'word', all, 'yesterday'),
  onValues('date', 'trailing-space', all, '2023-05-04 '),
  onValues('date', 'date-with-time', ['date'], '2023-05-04T10:20:30Z'),
  onValues('date', 'no-zone', ['dateTime', 'instant'], '2023-05-04T10:20:30'),
  onValues('date', 'no-seconds', ['dateTime', 'instant'], '2023-05-04T10:20Z'),
  onValues('date', 'hour-only', ['dateTime', 'instant'], '2023-05-04T10Z'),
  onValues('date', 'hour-24', ['dateTime', 'instant'], '2023-05-04T24:00:00Z'),
  onValues('date', 'hour-25', ['dateTime', 'instant'], '2023-05-04T25:00:00Z'),
  onValues('date', 'minute-60', ['dateTime', 'instant'], '2023-05-04T10:60:00Z'),
  onValues('date', 'second-61', ['dateTime', 'instant'], '2023-05-04T10:20:61Z'),
  onValues('date', 'leap-second', ['dateTime', 'instant'], '2016-12-31T23:59:60Z'),
  onValues('date', 'space-for-t', ['dateTime', 'instant'], '2023-05-04 10:20:30Z'),
  onValues('date', 'lower-case-z', ['dateTime', 'instant'], '2023-05-04T10:20:30z'),
  onValues('date', 'zone-without-colon', ['dateTime', 'instant'], '2023-05-04T10:20:30+0100'),
  onValues('date', 'zone-plus-15', ['dateTime', 'instant'], '2023-05-04T10:20:30+15:00'),
  onValues('date', 'zone-plus-14-valid', ['dateTime', 'instant'], '2023-05-04T10:20:30+14:00'),
  onValues('date', 'zone-plus-14-30', ['dateTime', 'instant'], '2023-05-04T10:20:30+14:30'),
  onValues('date', 'february-30-with-time', ['dateTime', 'instant'], '2023-02-30T10:20:30Z'),
  onValues('date', 'fraction-valid', ['dateTime', 'instant'], '2023-05-04T10:20:30.123456Z'),
  onValues('date', 'fraction-without-digits', ['dateTime', 'instant'], '2023-05-04T10:20:30.Z'),
  onValues('date', 'instant-date-only', ['instant'], '2023-05-04'),
  onValues('date', 'far-future-valid', moments, '2150-01-01'),
  onValues('date', 'nanoseconds-valid', ['dateTime', 'instant'], '2023-05-04T10:20:30.123456789+01:00'),
];

const isCoding = (s: { type: string; value: unknown }) => s.type === 'Coding';
const isBoundCode =
  (strength: string) => (s: { type: string; element: { binding?: { strength: string } } }) =>
    s.element.binding?.strength === strength && s.type === 'code';
const isBoundConcept =
  (strength: string) => (s: { type: string; element: { binding?: { strength: string } }; value: unknown }) =>
    s.element.binding?.strength === strength && s.type === 'CodeableConcept';

const known = { system: 'http://terminology.hl7.org/CodeSystem/v3-ActCode', code: 'IMP' };
const absent = { system: 'http://terminology.hl7.org/CodeSystem/v3-ActCode', code: 'WOBBLE' };

export const binding: Operator[] = [
  onSites('binding', 'required-code-unknown', isBoundCode('required'), ({ set }) => set('wobble')),
  onSites(
    'binding',
    'required-code-wrong-case',
    s => isBoundCode('required')(s) && String(s.value).toUpperCase() !== s.value,
    ({ set, site }) => set(String(site.value).toUpperCase()),
  ),
  onSites('binding', 'required-concept-other-system', isBoundConcept('required'), ({ set }) =>
    set({ coding: [{ system: 'http://example.org/codes', code: 'a' }] }),
  ),
  onSites(
    'binding',
    'required-concept-unknown-code',
    s =>
      isBoundConcept('required')(s) &&
      textAt((s.value as JsonObject)['coding'] && firstCoding(s.value), 'system') !== undefined,
    ({ set, site }) =>
      set({ coding: [{ system: textAt(firstCoding(site.value), 'system') ?? '', code: 'wobble' }] }),
  ),
  onSites('binding', 'required-concept-text-only', isBoundConcept('required'), ({ set }) =>
    set({ text: 'text' }),
  ),
  onSites('binding', 'required-concept-no-system', isBoundConcept('required'), ({ set, site }) =>
    set({ coding: [{ code: textAt(firstCoding(site.value), 'code') ?? 'a' }] }),
  ),
  onSites('binding', 'required-concept-second-coding-local', isBoundConcept('required'), ({ set, site }) => {
    const concept = site.value as JsonObject;
    const codings = Array.isArray(concept['coding']) ? concept['coding'] : [];
    set({ ...concept, coding: [...codings, { system: 'http://example.org/codes', code: 'a' }] });
  }),
  onSites('binding', 'extensible-concept-other-system', isBoundConcept('extensible'), ({ set }) =>
    set({ coding: [{ system: 'http://example.org/codes', code: 'a' }] }),
  ),
  onSites('binding', 'extensible-concept-text-only', isBoundConcept('extensible'), ({ set }) =>
    set({ text: 'text' }),
  ),
  onSites('binding', 'extensible-concept-known-system-other-code', isBoundConcept('extensible'), ({ set }) =>
    set({ coding: [known] }),
  ),
  onSites(
    'binding',
    'preferred-concept-other-system',
    s => isBoundConcept('preferred')(s),
    ({ set }) => set({ coding: [{ system: 'http://example.org/codes', code: 'a' }] }),
  ),
  onSites(
    'binding',
    'example-concept-other-system',
    s => isBoundConcept('example')(s),
    ({ set }) => set({ coding: [{ system: 'http://example.org/codes', code: 'a' }] }),
  ),
  onSites(
    'binding',
    'code-not-in-known-system',
    s => isBoundConcept('example')(s) || isBoundConcept('preferred')(s),
    ({ set }) => set({ coding: [absent] }),
  ),
  onSites(
    'binding',
    'coding-code-not-in-its-system',
    s =>
      isCoding(s) &&
      /terminology\.hl7\.org|hl7\.org\/fhir/.test(textAt(s.value as JsonObject, 'system') ?? ''),
    ({ set, site }) => set({ ...(site.value as JsonObject), code: 'wobble' }),
  ),
  onSites(
    'binding',
    'coding-code-removed',
    s => isCoding(s),
    ({ set, site }) => {
      const { code: _, ...rest } = site.value as JsonObject;
      set(rest);
    },
  ),
  onSites(
    'binding',
    'coding-system-removed',
    s => isCoding(s),
    ({ set, site }) => {
      const { system: _, ...rest } = site.value as JsonObject;
      set(rest);
    },
  ),
  onSites(
    'binding',
    'coding-system-value-set-url',
    s => isCoding(s),
    ({ set, site }) =>
      set({ ...(site.value as JsonObject), system: 'http://hl7.org/fhir/ValueSet/administrative-gender' }),
  ),
  onSites(
    'binding',
    'coding-unknown-version',
    s => isCoding(s),
    ({ set, site }) => set({ ...(site.value as JsonObject), version: '99.9' }),
  ),
  onSites(
    'binding',
    'quantity-comparator-unknown',
    s => ['Quantity'].includes(s.type) && isObject(s.value),
    ({ set, site }) => set({ ...(site.value as JsonObject), comparator: '~' }),
  ),
  onSites(
    'binding',
    'language-unknown',
    s => s.key === 'language' && s.type === 'code',
    ({ set }) => set('xx-YY'),
  ),
  onSites(
    'binding',
    'mime-valid',
    s => s.element.path === 'Attachment.contentType',
    ({ set }) => set('application/pdf; charset=UTF-8'),
  ),
  onSites(
    'binding',
    'currency-unknown',
    s => s.type === 'Money',
    ({ set }) => set({ value: 1, currency: 'QQQ' }),
  ),
];

function firstCoding(concept: unknown): JsonObject | undefined {
  const codings = isObject(concept as JsonObject) ? (concept as JsonObject)['coding'] : undefined;
  const first = Array.isArray(codings) ? codings[0] : undefined;
  return isObject(first) ? first : undefined;
}

const ownedSystem = /terminology\.hl7\.org\/CodeSystem|hl7\.org\/fhir\/[a-z]/;

export const display: Operator[] = [
  onSites(
    'display',
    'display-wrong-known-system',
    s => isCoding(s) && ownedSystem.test(textAt(s.value as JsonObject, 'system') ?? ''),
    ({ set, site }) => set({ ...(site.value as JsonObject), display: 'Wobble' }),
  ),
  onSites(
    'display',
    'display-other-case',
    s =>
      isCoding(s) &&
      textAt(s.value as JsonObject, 'display') !== undefined &&
      ownedSystem.test(textAt(s.value as JsonObject, 'system') ?? ''),
    ({ set, site }) =>
      set({ ...(site.value as JsonObject), display: (textAt(site.value, 'display') ?? '').toUpperCase() }),
  ),
  onSites(
    'display',
    'display-wrong-unknown-system',
    s => isCoding(s) && !ownedSystem.test(textAt(s.value as JsonObject, 'system') ?? ''),
    ({ set, site }) => set({ ...(site.value as JsonObject), display: 'Wobble' }),
  ),
  onSites(
    'display',
    'display-removed',
    s => isCoding(s) && textAt(s.value as JsonObject, 'display') !== undefined,
    ({ set, site }) => {
      const { display: _, ...rest } = site.value as JsonObject;
      set(rest);
    },
  ),
  onSites(
    'display',
    'display-without-code',
    s => isCoding(s),
    ({ set }) => set({ display: 'Wobble' }),
  ),
];

const ucum = 'http://unitsofmeasure.org';
const isUcum = (s: { type: string; value: unknown }) =>
  ['Quantity', 'Age', 'Duration', 'Count', 'Distance', 'SimpleQuantity'].includes(s.type) &&
  textAt(s.value as JsonObject, 'system') === ucum;
const withCode = (id: string, code: string) =>
  onSites('ucum', id, isUcum, ({ set, site }) => set({ ...(site.value as JsonObject), code }));

export const ucumCodes: Operator[] = [
  withCode('unit-word', 'millimetres'),
  withCode('unit-french-word', 'Fr'),
  withCode('unit-french-valid', '[Ch]'),
  withCode('unit-upper-case', 'MM'),
  withCode('unit-slash-slash', 'mg//dL'),
  withCode('unit-space', 'mg dL'),
  withCode('unit-micro-sign', 'µmol/L'),
  withCode('unit-valid-compound', 'mL/min/{1.73_m2}'),
  withCode('unit-gray-square-centimetre-valid', 'Gy.cm2'),
  withCode('unit-middle-dot', 'Gy·cm2'),
  withCode('unit-caret', 'm^2'),
  withCode('unit-unclosed-annotation', '{drops'),
  withCode('unit-annotation-valid', '{drops}'),
  withCode('unit-unbalanced-brackets', '(mg/dL'),
  withCode('unit-prefix-on-non-metric', 'k[in_i]'),
  withCode('unit-pressure-valid', 'mm[Hg]'),
  withCode('unit-pressure-bare', 'mmHg'),
  withCode('unit-percent-valid', '%'),
  withCode('unit-ten-power-valid', '10*9/L'),
  onSites('ucum', 'unit-removed-code', isUcum, ({ set, site }) => {
    const { code: _, ...rest } = site.value as JsonObject;
    set(rest);
  }),
  onSites('ucum', 'unit-removed-system', isUcum, ({ set, site }) => {
    const { system: _, ...rest } = site.value as JsonObject;
    set(rest);
  }),
  onSites('ucum', 'unit-other-system', isUcum, ({ set, site }) =>
    set({ ...(site.value as JsonObject), system: 'http://example.org/units' }),
  ),
];

/** Kept apart: changes that any primitive takes, whatever its type. */
export const anyPrimitive: Operator[] = [
  onSites(
    'primitive',
    'very-long-text-valid',
    s => isPrimitive(s) && s.type === 'string' && s.key !== 'reference',
    ({ set }) => set('long '.repeat(400).trim()),
  ),
];
