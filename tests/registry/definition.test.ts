import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { parse } from 'yaml';
import { agreed, askedBy, isTaken } from '../../src/registry/definition/agreed.js';
import { definitionSchema } from '../../src/registry/definition/schema.js';
import { batchText } from '../../src/registry/format/batch.js';
import { examplePath } from '../support/examples.js';
import { elementsOf } from './made.js';

// biome-ignore lint/suspicious/noExplicitAny: data of a definition, to be changed at any depth
type Loose = Record<string, any>;
const shipped = (name: string): Loose =>
  parse(readFileSync(examplePath(`registries/${name}`), 'utf8')) as Loose;
const of = (change: (data: Loose) => void, name = 'implant-returns.yaml') => {
  const data = shipped(name);
  change(data);
  return definitionSchema.safeParse(data);
};
const wrong = (change: (data: Loose) => void) =>
  of(change).error?.issues.map(({ path, message }) => `${path.join('.')}: ${message}`) ?? [];
const about = { case: 'A', device: 'drain' };

describe('a definition', () => {
  it.each(['implant-returns.yaml', 'drain-watch.yaml'])('that is shipped can be used: %s', name => {
    expect(of(() => undefined, name).success).toBe(true);
  });

  it.each([
    ['a field that nobody knows', (data: Loose) => (data['elemnts'] = {}), 'Unrecognized key'],
    ['an element that nobody knows', (data: Loose) => (data['elements']['colour'] = {}), 'colour'],
    [
      'a file without the number of the batch',
      (data: Loose) => (data['transport']['file'] = 'x.csv'),
      '{batch}',
    ],
    [
      'a FHIR server and a CSV file',
      (data: Loose) => (data['transport'] = { kind: 'fhir server' }),
      'fhir bundle',
    ],
    [
      'columns without the entry',
      (data: Loose) => data['format']['columns'].shift(),
      'answers could not be matched',
    ],
    [
      'a number of a device among what points at people',
      (data: Loose) => data['alike']['elements'].push('lot'),
      'names a device and no person',
    ],
    [
      'an entry without its kind of case',
      (data: Loose) => (data['elements']['caseKind'] = { need: 'never' }),
      'cannot be left out',
    ],
  ])('with %s is refused', (_, change, said) => {
    expect(wrong(data => void change(data)).join('\n')).toContain(said);
  });
});

describe('an entry and what is agreed', () => {
  const rules = (elements: Loose) => definitionSchema.parse({ ...shipped('drain-watch.yaml'), elements });
  const said = (elements: Loose, entry = elementsOf('drain')) =>
    agreed(entry, rules(elements), about).findings.map(({ code, path, severity }) => [code, path, severity]);

  it('holds back what lacks something mandatory, where it must have it', () => {
    expect(said({ lot: { need: 'mandatory' } })).toEqual([
      ['registry.element-missing', 'devices.drain.lot', 'error'],
    ]);
    expect(said({ lot: { need: 'mandatory', when: ['removed'] } })).toEqual([]);
    expect(said({ lot: { need: 'recommended' } })).toEqual([
      ['registry.element-wanted', 'devices.drain.lot', 'information'],
    ]);
    expect(said({ grades: { need: 'mandatory' } })[0]?.[1]).toBe('complications');
  });

  it('takes the values that the registry takes, and no longer ones', () => {
    const entry = elementsOf('drain', { sex: 'other', lot: 'L-123456' });
    expect(said({ sex: { values: ['male', 'female'] } }, entry)).toEqual([
      ['registry.value-not-taken', 'patient.sex', 'error'],
    ]);
    expect(said({ lot: { longest: 5 } }, entry)[0]?.[0]).toBe('registry.value-too-long');
    expect(said({ sex: { values: ['other'] }, lot: { longest: 8 } }, entry)).toEqual([]);
  });

  it('leaves out what the registry never takes, and codes of other systems', () => {
    const entry = elementsOf('drain', {
      ...{ maker: 'Farrow Ductal', site: 'http://snomed.info/sct|1', indication: ['a|1', 'b|2'] },
    });
    const { elements } = agreed(
      entry,
      rules({
        maker: { need: 'never' },
        site: { system: 'http://other.example' },
        indication: { system: 'b' },
      }),
      about,
    );
    expect(elements).not.toHaveProperty('maker');
    expect(elements).not.toHaveProperty('site');
    expect(elements.indication).toEqual(['b|2']);
  });

  it('makes what is asked for alone', () => {
    expect([...askedBy(rules({ side: {}, unit: { need: 'never' } }))]).toEqual(['side']);
    expect(askedBy(definitionSchema.parse(shipped('implant-returns.yaml'))).has('dwellDays')).toBe(true);
  });

  it('is of a kind that the registry takes', () => {
    const definition = definitionSchema.parse(shipped('implant-returns.yaml'));
    expect(isTaken(definition, elementsOf('drain'))).toBe(true);
    expect(isTaken(definition, elementsOf('wire', { family: 'guidewire' }))).toBe(false);
    expect(isTaken(definition, elementsOf('drain', { action: 'opened not used' }))).toBe(false);
  });
});

describe('a batch in CSV', () => {
  const definition = (format: Loose) => {
    const { elements } = shipped('implant-returns.yaml');
    const columns = ['entry', 'action', 'lot', 'caseKind', 'site'];
    return definitionSchema.parse({
      ...{ ...shipped('implant-returns.yaml'), elements },
      format: { kind: 'csv', columns, ...format },
    });
  };
  const entry = elementsOf('drain', {
    ...{ lot: 'L;1"2', caseKind: ['nephrostomy', 'biopsy'], site: 'http://snomed.info/sct|18639004' },
  });
  const text = (format: Loose) => batchText([entry], definition(format), { pseudonymSystem: 'urn:x' });

  it('follows the dialect (RFC 4180 where nothing else is said)', () => {
    expect(text({})).toBe(
      'entry,EVENT,LOT,CASE_KIND,SITE\r\nk1.entry-drain,IN,"L;1""2",nephrostomy/biopsy,18639004\r\n',
    );
    expect(text({ delimiter: ';', header: false, newline: 'LF', listSeparator: '|' })).toBe(
      'k1.entry-drain;IN;"L;1""2";nephrostomy|biopsy;18639004\n',
    );
    expect(text({ quote: 'always', byteOrderMark: true, header: false })).toBe(
      '\ufeff"k1.entry-drain","IN","L;1""2","nephrostomy/biopsy","18639004"\r\n',
    );
  });
});
