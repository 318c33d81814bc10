import { describe, expect, test } from 'vitest';
import { shelfOf } from '../../../src/conformance/index.js';
import { grammarVerdict } from '../../../src/conformance/terminology/grammars.js';
import { Terminology } from '../../../src/conformance/terminology/terminology.js';
import { toUnit, unitProblem } from '../../../src/conformance/terminology/units.js';
import { published, shipped } from '../validators.js';

const SYSTEM = 'http://example.org/animals';
const set = (id: string, compose: object) => ({
  resourceType: 'ValueSet',
  url: `http://example.org/vs/${id}`,
  compose,
});
const shelf = shelfOf({ name: 'example.terms', version: '1.0.0' }, [
  {
    resourceType: 'CodeSystem',
    url: SYSTEM,
    content: 'complete',
    caseSensitive: true,
    concept: [
      {
        code: 'animal',
        concept: [
          { code: 'dog', property: [{ code: 'legs', valueInteger: 4 }], concept: [{ code: 'puppy' }] },
          { code: 'bird', property: [{ code: 'legs', valueInteger: 2 }] },
        ],
      },
      { code: 'stone' },
    ],
  },
  set('is-a', { include: [{ system: SYSTEM, filter: [{ property: 'concept', op: 'is-a', value: 'dog' }] }] }),
  set('descendent', {
    include: [{ system: SYSTEM, filter: [{ property: 'concept', op: 'descendent-of', value: 'dog' }] }],
  }),
  set('is-not-a', {
    include: [{ system: SYSTEM, filter: [{ property: 'concept', op: 'is-not-a', value: 'animal' }] }],
  }),
  set('equals', { include: [{ system: SYSTEM, filter: [{ property: 'legs', op: '=', value: '4' }] }] }),
  set('in', { include: [{ system: SYSTEM, filter: [{ property: 'legs', op: 'in', value: '2,4' }] }] }),
  set('regex', {
    include: [{ system: SYSTEM, filter: [{ property: 'code', op: 'regex', value: '.*o.*' }] }],
  }),
  set('generalizes', {
    include: [{ system: SYSTEM, filter: [{ property: 'concept', op: 'generalizes', value: 'puppy' }] }],
  }),
  set('exists', {
    include: [{ system: SYSTEM, filter: [{ property: 'legs', op: 'exists', value: 'true' }] }],
  }),
  set('exclude', {
    include: [{ system: SYSTEM }],
    exclude: [{ system: SYSTEM, concept: [{ code: 'stone' }] }],
  }),
  set('import', { include: [{ valueSet: ['http://example.org/vs/is-a'] }] }),
  set('both', { include: [{ valueSet: ['http://example.org/vs/is-a', 'http://example.org/vs/regex'] }] }),
  set('loop', { include: [{ valueSet: ['http://example.org/vs/loop'] }] }),
  set('odd', { include: [{ system: SYSTEM, filter: [{ property: 'legs', op: 'child-of', value: '1' }] }] }),
]);
const terms = new Terminology(shipped().with(shelf));
const members = (id: string) =>
  ['animal', 'dog', 'puppy', 'bird', 'stone'].filter(
    c => terms.test(`http://example.org/vs/${id}`, SYSTEM, c).is === 'in',
  );

describe('filters of a complete code system', () => {
  test.each([
    ['is-a', ['dog', 'puppy']],
    ['descendent', ['puppy']],
    ['is-not-a', ['stone']],
    ['equals', ['dog']],
    ['in', ['dog', 'bird']],
    ['regex', ['dog', 'stone']],
    ['generalizes', ['animal', 'dog', 'puppy']],
    ['exists', ['dog', 'bird']],
    ['exclude', ['animal', 'dog', 'puppy', 'bird']],
    ['import', ['dog', 'puppy']],
    ['both', ['dog']],
    ['loop', []],
  ])('%s', (id, expected) => expect(members(id)).toEqual(expected));
  test('a filter that is not known leaves the question open', () => {
    expect(terms.test('http://example.org/vs/odd', SYSTEM, 'dog')).toMatchObject({ is: 'unknown' });
  });
});

describe('against the expansions that R4 publishes', () => {
  // Source: Bundle-valueset-expansions of hl7.fhir.r4.examples 4.0.1.
  const expansions = published('hl7.fhir.r4.examples/Bundle-valueset-expansions.json').entry.map(
    (e: { resource: object }) => e.resource,
  );
  const sets = [
    'administrative-gender',
    'event-status',
    'device-status',
    'composition-status',
    'udi-entry-type',
    'request-intent',
    'observation-status',
    'name-use',
    'quantity-comparator',
    'bundle-type',
    'device-nametype',
    'currencies',
  ];
  test.each(sets)('%s holds the same codes', name => {
    const url = `http://hl7.org/fhir/ValueSet/${name}`;
    const { expansion } = expansions.find((v: { url: string }) => v.url === url);
    expect(expansion.contains.length).toBeGreaterThan(1);
    for (const { system, code } of expansion.contains) {
      expect(terms.test(url, system, code), code).toEqual({ is: 'in' });
      expect(terms.test(url, undefined, `${code}-x`)).toEqual({ is: 'out' });
    }
  });
});

test('SNOMED CT filters are open, other code systems are out', () => {
  const url = 'http://hl7.org/fhir/uv/ips/ValueSet/medical-devices-uv-ips';
  expect(terms.test(url, 'http://snomed.info/sct', '303619004')).toMatchObject({ is: 'unknown' });
  expect(terms.test(url, 'http://example.org/local', 'stent')).toEqual({ is: 'out' });
});

test('a terminology server answers what is open, and only that', () => {
  const asked: string[] = [];
  const answered = new Terminology(shipped(), {
    member: (_set, _system, code) => {
      asked.push(code);
      return code === '303619004';
    },
  });
  const url = 'http://hl7.org/fhir/uv/ips/ValueSet/medical-devices-uv-ips';
  expect(answered.test(url, 'http://snomed.info/sct', '303619004')).toEqual({ is: 'in' });
  expect(answered.test(url, 'http://snomed.info/sct', '1')).toEqual({ is: 'out' });
  expect(answered.test('http://hl7.org/fhir/ValueSet/administrative-gender', undefined, 'female')).toEqual({
    is: 'in',
  });
  expect(asked).toEqual(['303619004', '1']);
});

describe('languages and media types', () => {
  // Examples of RFC 5646 appendix A, and RFC 6838.
  test.each([
    'de',
    'zh-Hant',
    'sr-Latn-RS',
    'sl-rozaj-biske',
    'de-CH-1901',
    'es-419',
    'x-whatever',
    'fr-LU',
    'en-US-u-islamcal',
  ])('%s is a language', tag => {
    expect(grammarVerdict('urn:ietf:bcp:47', tag)).toBe(true);
  });
  test.each(['de_DE', 'not a language', 'a-DE', 'xx-YY', 'de-419-DE'])('%s is none', tag => {
    expect(grammarVerdict('urn:ietf:bcp:47', tag)).toBe(false);
  });
  test.each(['text/html', 'application/fhir+json', 'text/plain; charset=UTF-8', 'image/svg+xml'])(
    '%s is a media type',
    type => {
      expect(grammarVerdict('urn:ietf:bcp:13', type)).toBe(true);
    },
  );
  test.each(['pdf', 'text/', '/html', 'application/dicom; variant=DICOM WADO'])('%s is none', type => {
    expect(grammarVerdict('urn:ietf:bcp:13', type)).toBe(false);
  });
});

describe('units', () => {
  // Source of the valid ones: hl7.fhir.r4.examples ValueSet ucum-common; French, dose and pressure are UCUM units.
  const common = published('hl7.fhir.r4.examples/ValueSet-ucum-common.json').compose.include[0].concept.map(
    (c: { code: string }) => c.code,
  );
  test('all common UCUM units of R4 are valid', () => {
    expect(common.length).toBeGreaterThan(1000);
    expect(common.filter((c: string) => unitProblem(c) !== undefined)).toEqual([]);
  });
  test.each(['[Ch]', 'Gy.cm2', 'mGy/min', 'mm[Hg]', 'atm', '{score}', 'umol/L', '[in_i]', '10*3/uL'])(
    '%s is valid',
    unit => {
      expect(unitProblem(unit)).toBeUndefined();
    },
  );
  test.each(['Fr', 'Gy*cm2', 'mmHg', 'k[in_i]', 'mg dL', 'mg//dL', 'µmol/L', 'MM'])('%s is not', unit => {
    expect(unitProblem(unit)).toBeTypeOf('string');
  });
  test('converts what can be converted', () => {
    expect(toUnit(1, '[in_i]', 'mm')).toBeCloseTo(25.4);
    expect(toUnit(1, 'mm', 'mg')).toBeUndefined();
  });
});
