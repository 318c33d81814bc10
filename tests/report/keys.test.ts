import { readdirSync, readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { parse } from 'yaml';
import { assess } from '../../src/clinical/assess.js';
import { timelineSvg } from '../../src/devices/timeline/svg.js';
import { timelineOf } from '../../src/devices/timeline/timeline.js';
import { mapCase } from '../../src/fhir/map-case.js';
import { parseCaseData } from '../../src/record/parse.js';
import { audiences } from '../../src/report/options.js';
import { documentOf } from '../../src/report/view/document.js';
import { buildView } from '../../src/report/view/view.js';
import { narrative, options } from '../fhir/cases.js';

/** Keys of devices and parts in these records, so that a key is never also a word. */
const MARK = 'zq';
const REFERS = new Set(['device', 'replaces', 'over', 'through', 'part']);
const HOLDS = new Set(['devices', 'parts']);

/** The record with the key of every device and part made into one that no sentence has. */
function renamed(value: unknown, field = ''): unknown {
  if (Array.isArray(value))
    return value.map(one => (field === 'with' && typeof one === 'string' ? MARK + one : renamed(one, field)));
  if (typeof value === 'object' && value !== null)
    return Object.fromEntries(
      Object.entries(value).map(([name, child]) => [
        HOLDS.has(field) ? MARK + name : name,
        REFERS.has(name) && typeof child === 'string' && !('measure' in value)
          ? MARK + child
          : renamed(child, HOLDS.has(field) ? '' : name),
      ]),
    );
  return value;
}

/** Every text of a value, but for what only machines read: keys of rows, identifiers, references. */
function texts(value: unknown, skip: ReadonlySet<string>): string[] {
  if (typeof value === 'string') return [value];
  if (Array.isArray(value)) return value.flatMap(one => texts(one, skip));
  if (typeof value !== 'object' || value === null) return [];
  return Object.entries(value).flatMap(([name, child]) => (skip.has(name) ? [] : texts(child, skip)));
}

const folders = ['../../examples/', '../plants/cases/'].map(path => new URL(path, import.meta.url));
const cases = folders.flatMap(folder =>
  readdirSync(folder)
    .filter(name => /\.(?:yaml|json)$/.test(name) && !/^(?:site|mistaken)/.test(name))
    .map(name => [name, readFileSync(new URL(name, folder), 'utf8')] as const),
);

it('has cases to look at', () => expect(cases.length).toBeGreaterThan(25));

describe.each(cases)('%s', (_, text) => {
  const data = renamed(parse(text, { schema: 'failsafe' }));
  const { record, findings } = parseCaseData(data);
  if (!record) throw new Error(JSON.stringify(findings.slice(0, 3)));
  const assessment = assess(record);
  const seen = (value: unknown, ...skip: string[]) =>
    texts(value, new Set(skip)).filter(one => one.includes(MARK));

  it.each(['en-GB', 'de'] as const)('names no key in any report, in %s', language => {
    const view = buildView(record, assessment, { language });
    for (const audience of audiences) {
      const { sections, ...rest } = documentOf(view, { audience });
      // Accepted warnings are an annex: they name the place in the record.
      const shown = sections.filter(({ key }) => key !== 'warnings');
      expect(seen([rest, shown], 'key'), audience).toEqual([]);
    }
    expect(seen([timelineSvg(timelineOf(record, assessment.devices, assessment.tally, language))])).toEqual(
      [],
    );
  });

  it('names no key in any resource', () => {
    const { entries } = mapCase(record, assessment, narrative, options);
    const resources = entries.map(({ resource }) => resource);
    const shown = seen(resources, 'identifier', 'reference', 'id', 'fullUrl', 'masterIdentifier');
    expect(shown.filter(one => !one.startsWith('Finding '))).toEqual([]);
  });
});
