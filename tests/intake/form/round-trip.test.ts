import { readdirSync, readFileSync } from 'node:fs';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { parse } from 'yaml';
import { messageOf } from '../../../src/findings/finding.js';
import { fromResponse } from '../../../src/intake/form/from-response.js';
import { toResponse } from '../../../src/intake/form/to-response.js';
import { writeFhirJson } from '../../../src/json/write.js';
import { parseCase } from '../../../src/record/parse.js';
import { unconfiguredSite } from '../../../src/site/site.js';
import { fullCase } from '../../fhir/full-case.js';
import { exampleFiles, exampleText, preparedExample } from '../../support/examples.js';
import { sampled } from '../../support/sampled.js';
import { anyRecord } from './any-record.js';

const options = { version: '0.0.0-test', timeZone: 'Europe/Lisbon' };

/** The record that comes back from the response that was made of a record. */
function back(text: string): string {
  const { response, findings } = toResponse(text, options);
  if (!response) throw new Error(findings.map(f => `${f.path} ${messageOf(f)}`).join('\n'));
  const returned = fromResponse(writeFhirJson(response), options);
  expect(returned.leftOut).toEqual([]);
  return returned.record ?? '';
}

/** What was read, without the address for editors, and without lists and keyed entries that are empty: they say nothing. */
function read(text: string): object {
  const { $schema: _schema, ...record } = parseCase(text, options).record ?? { $schema: undefined };
  const some = Object.entries(record).filter(([, value]) => JSON.stringify(value) !== '{}');
  return Object.fromEntries(some);
}

const folder = (name: string) => new URL(`../../${name}`, import.meta.url);
const planted = readdirSync(folder('plants/cases/')).filter(name => name.endsWith('.yaml'));
const small = ['sizes', 'tally'].flatMap(
  name =>
    parse(readFileSync(folder(`cases/${name}.yaml`), 'utf8')) as {
      name: string;
      record: { case?: object };
    }[],
);

/** Around parts of a record. */
const head = { id: 'T-1', status: 'completed', date: '2024-03-14', kind: 'test', started: '08:00' };
const base = {
  ...{
    casetally: 1,
    case: head,
    indication: { text: 'test' },
    report: { status: 'preliminary', author: 'op' },
  },
  patient: { identifiers: [{ system: 'urn:oid:2.16.840.1.113883.19.5', value: '1' }] },
  team: [{ key: 'op', role: 'operator', name: 'Dr Ilse Branquinho' }],
};

describe('a record that was made a response of comes back with nothing lost', () => {
  it.each(exampleFiles)('%s', file => {
    expect(read(back(exampleText(file)))).toEqual(read(exampleText(file)));
  });

  it.each(sampled('cases of the bank as responses', planted, 6))('%s of the bank of cases', file => {
    const text = readFileSync(folder(`plants/cases/${file}`), 'utf8');
    expect(read(back(text))).toEqual(read(text));
  });

  it.each(small)('$name', ({ record }) => {
    const text = JSON.stringify({ ...base, ...record, case: { ...head, ...record.case } });
    expect(read(text)).toHaveProperty('case');
    expect(read(back(text))).toEqual(read(text));
  });

  it('with every field of the schema filled in', () => {
    const text = JSON.stringify(fullCase);
    expect(read(back(text))).toEqual(read(text));
  });

  it('of any shape that the schema allows', () => {
    let compared = 0;
    fc.assert(
      fc.property(anyRecord, tree => {
        const text = JSON.stringify({ ...(tree as object), casetally: 1 });
        if (!parseCase(text, options).record) return;
        compared += 1;
        expect(read(back(text))).toEqual(read(text));
      }),
      { numRuns: 60 },
    );
    expect(compared).toBeGreaterThan(40);
  });

  it('with a device that was there before, of which nothing more is known', () => {
    const devices = { drain: { kind: 'drainage catheter', carried: {} }, wire: { kind: 'guidewire' } };
    const text = JSON.stringify({ ...base, devices });
    expect(read(text)).toMatchObject({ devices: { drain: { carried: {} } } });
    expect(read(back(text))).toEqual(read(text));
  });
});

describe('a response of an example gives the same case', () => {
  const three = ['biliary-drainage-and-stent.yaml', 'embolisation.yaml', 'gastrostomy.json'];
  it.each(three)('%s: submission, document and reports byte for byte', file => {
    const own = preparedExample(file);
    const returned = preparedExample(file, unconfiguredSite, back(exampleText(file)));
    expect(own.submission.length).toBeGreaterThan(10_000);
    expect(returned.submission).toBe(own.submission);
    expect(returned.document).toBe(own.document);
    expect(returned.reports).toEqual(own.reports);
  });
});
