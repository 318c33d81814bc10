import { describe, expect, it } from 'vitest';
import { messageOf, remedyOf } from '../../src/findings/finding.js';
import { languages } from '../../src/findings/languages.js';
import { say } from '../../src/findings/say.js';
import { parseCase } from '../../src/record/parse.js';
import { sourcedValues } from '../../src/record/sourced.js';
import { bareCase } from '../support/report/cases.js';

const withSources = (lines: string) => parseCase(`${bareCase}\nsources:\n${lines}`);
const line = (path: string) => `  - { path: ${JSON.stringify(path)}, from: order, at: 2024-05-02T08:12 }\n`;

describe('where values came from', () => {
  it('is optional, and a record without it is as before', () => {
    const { record, findings } = parseCase(bareCase);
    expect(record?.sources).toBeUndefined();
    expect(record && sourcedValues(record)).toEqual([]);
    expect(findings.map(f => f.code)).not.toContain('record.source-of-nothing');
  });

  it('names values of the record, lists and names in quotes included', () => {
    const { record, findings } = withSources(
      ['case.kind', 'patient.identifiers[0].value', 'team[0]', 'patient', 'sources[0].from']
        .map(line)
        .join(''),
    );
    expect(findings.filter(f => f.path.startsWith('sources'))).toEqual([]);
    expect(record?.sources).toHaveLength(5);
  });

  it.each([
    'case.kinds',
    'team[1]',
    'team.0',
    'devices.drain',
    '__proto__',
    'case.__proto__',
    'case.constructor',
    'case["\\q"]',
    '[',
    '...',
    'case.kind.length',
    `${'a.'.repeat(5000)}b`,
    '\u202ecase.kind',
  ])('says that %j names nothing, with the line and what to do', path => {
    const { record, findings } = withSources(line(path));
    const [found, more] = findings.filter(f => f.code === 'record.source-of-nothing');
    expect(more).toBeUndefined();
    expect(found).toMatchObject({ severity: 'warning', path: 'sources[0].path', line: 10 });
    expect(record).toBeDefined();
    for (const language of languages) {
      expect(found && messageOf(found, language).length).toBeLessThan(200);
      expect(found && remedyOf(found, language)).not.toContain('{');
    }
  });

  it('says it too where the rest of the record cannot be read', () => {
    const { findings } = parseCase(
      `${bareCase.replace('kind: nephrostomy', 'urgency: soon, kind: nephrostomy')}\nsources:\n${line('case.kinds')}`,
    );
    expect(findings.map(f => f.code)).toEqual(
      expect.arrayContaining(['record.not-one-of', 'record.source-of-nothing']),
    );
  });

  it('refuses a kind of source that there is not', () => {
    const { record, findings } = withSources('  - { path: case.kind, from: rumour, at: 2024-05-02T08:12 }\n');
    expect(record).toBeUndefined();
    expect(findings.map(f => f.code)).toContain('record.not-one-of');
  });

  it('puts the lines of one source together, in the words of the reader', () => {
    const { record } = withSources(
      `${line('case.kind')}  - { path: case.id, from: kit, at: 2024-05-02T08:12, by: "{by} Drainage" }\n${line('indication.text')}`,
    );
    const values = record ? sourcedValues(record) : [];
    expect(values.map(({ source, places }) => [say(source), places.map(place => say(place))])).toEqual([
      ['order', ['Case: kind', 'Indication: text']],
      ['kit {by} Drainage', ['Case: id']],
    ]);
    expect(say(values[0]?.source ?? '', 'de')).toBe('Auftrag');
  });
});
