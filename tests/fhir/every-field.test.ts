import { describe, expect, it } from 'vitest';
import { assess } from '../../src/clinical/assess.js';
import { mapCase } from '../../src/fhir/map-case.js';
import { writeFhirJson } from '../../src/json/write.js';
import { allFields } from '../../src/record/keys.js';
import { parseCaseData } from '../../src/record/parse.js';
import { recordSchema } from '../../src/record/schema/record.js';
import { sampled } from '../support/sampled.js';
import { narrative, options } from './cases.js';
import { fullCase } from './full-case.js';

/** Fields that are about the file, the machine or the wording and not about the case: each with its reason. */
const notMapped: Readonly<Record<string, string>> = {
  $schema: 'points editors at the JSON Schema',
  'case.timeZone': 'is in the offset of every time',
  casetally: 'has one value only; the account of origin names it',
};

/** What the value of a field is changed to where it can be neither left out nor altered by a digit or a letter. */
const others: Readonly<Record<string, unknown>> = {
  'case.status': 'completed',
  'case.date': '2024-03-12',
  'team.role': 'other',
  'before.conditions.status': 'active',
  'before.consent.status': 'refused',
  'sedation.kind': 'deep sedation',
  'sedation.changes.to': 'deep sedation',
  'drugs.route': 'oral',
  'events.do': 'note',
  'contrast.route': 'oral',
  'complications.grade.scale': 'SIR 2017',
  'outcome.overall': 'successful',
  'images.study': '2.25.999',
  'left.device': 'labelled',
  'aftercare.criteria.is': 'over',
  'aftercare.by': 'patient',
  'report.status': 'final',
  'report.version': 5,
  'report.author': 'nurse',
  'sources.from': 'form',
};

/** The same text with its first digit raised: another amount, time or number. */
const nextDigit = (value: unknown) =>
  String(value).replace(/\d(?=\D|$)/, digit => String((Number(digit) + 1) % 10));

type Data = { [key: string]: unknown };
type Path = readonly (string | number)[];

function leaves(value: unknown, path: Path = []): { path: Path; value: unknown }[] {
  if (Array.isArray(value)) return value.flatMap((item: unknown, index) => leaves(item, [...path, index]));
  if (typeof value === 'object' && value !== null)
    return Object.entries(value).flatMap(([key, item]: [string, unknown]) => leaves(item, [...path, key]));
  return [{ path, value }];
}

/** A copy of the data with one value changed, or left out. */
function changed(data: unknown, [head, ...rest]: Path, to: unknown): unknown {
  if (Array.isArray(data)) {
    const list: unknown[] = [...data];
    if (typeof head === 'number') {
      if (rest.length === 0 && to === undefined) list.splice(head, 1);
      else list[head] = rest.length === 0 ? to : changed(list[head], rest, to);
    }
    return list;
  }
  const copy: Data = Object.assign({}, data);
  if (head === undefined) return copy;
  if (rest.length === 0 && to === undefined) delete copy[head];
  else copy[head] = rest.length === 0 ? to : changed(copy[head], rest, to);
  return copy;
}

/** The elements of all resources as text: narratives, the rendered report and digests of source and content do not count. */
function resourcesOf(data: unknown, over: Partial<typeof options> = {}): string | undefined {
  const { record } = parseCaseData(data);
  if (!record) return undefined;
  const set = mapCase(record, assess(record), narrative, { ...options, ...over, sourceDigest: 'sha256:0' });
  return set.entries
    .filter(({ role }) => role !== 'document-reference')
    .map(({ resource }) => {
      const copy = { ...resource, text: undefined };
      return writeFhirJson('section' in copy ? { ...copy, section: undefined } : copy, 0);
    })
    .join('\n')
    .replace(/sha256:[\da-f]{64}/g, 'sha256');
}

/** `devices.drain.parts.lock.kind` as the schema names it: `devices.*.parts.*.kind`. */
function fieldOf(path: Path): string {
  return path
    .filter(part => typeof part === 'string')
    .join('.')
    .replace(/^(targets|devices)\.\w+/, '$1.*')
    .replace(/\.parts\.\w+/, '.parts.*');
}

const all = leaves(fullCase);
const whole = resourcesOf(fullCase) ?? '';

describe('every field of the record', () => {
  it('is filled in by the full case', () => {
    const filled = all.map(({ path }) => fieldOf(path));
    const fields = [...new Set(allFields(recordSchema({})).map(field => field.replace(/\[\]/g, '')))];
    expect(fields.length).toBeGreaterThan(300);
    const reached = (field: string) => filled.some(name => name === field || name.startsWith(`${field}.`));
    expect(fields.filter(field => !reached(field) && !(field in notMapped))).toEqual([]);
  });

  it('is read', () => {
    expect(
      parseCaseData(fullCase).record,
      JSON.stringify(parseCaseData(fullCase).findings, null, 1),
    ).toBeDefined();
  });

  const mapped = all.filter(({ path }) => !(fieldOf(path) in notMapped));

  it.each(
    sampled('fields of the full case', mapped, 6).map(
      ({ path, value }) => [path.join('.'), path, value] as const,
    ),
  )('%s makes a difference to the resources', (name, path, value) => {
    const tries = [undefined, others[fieldOf(path)], nextDigit(value), `${value}x`, `x${value}`];
    let read = 0;
    const differs = tries
      .filter((to, index) => index === 0 || to !== undefined)
      .some(to => {
        const text = resourcesOf(changed(fullCase, path, to));
        if (text !== undefined) read += 1;
        return text !== undefined && text !== whole;
      });
    expect(read, `no other value of ${name} can be read`).toBeGreaterThan(0);
    expect(differs).toBe(true);
  });

  it.each(
    mapped
      .filter(({ value }) => typeof value === 'string' && value.startsWith('zq'))
      .map(({ path, value }) => [path.join('.'), String(value)] as const),
  )('%s is in an element of a resource', (_, value) => {
    expect(whole.includes(value)).toBe(true);
  });

  it.each(
    mapped
      .map(({ path, value }) => ({ name: path.join('.'), digits: /^(-?\d+\.\d+) /.exec(String(value))?.[1] }))
      .filter(({ name, digits }) => digits !== undefined && name !== 'patient.height')
      .map(({ name, digits }) => [name, digits ?? ''] as const),
  )('%s keeps its digits: %s', (_, digits) => {
    expect(new RegExp(`(?<![\\d.])${digits.replace('.', '\\.')}(?!\\d)`).test(whole)).toBe(true);
  });
});

describe("'none' that was said", () => {
  const places: readonly Path[] = [
    ['before', 'allergies'],
    ['before', 'anticoagulants'],
    ['drugs'],
    ['contrast'],
    ['radiation'],
    ['sedation'],
    ['specimens'],
    ['complications'],
    ['left'],
  ];
  it.each(places.map(path => [path.join('.'), path] as const))(
    '%s: none differs from not recorded',
    (_, path) => {
      // Lines that refer to what is taken away go with it.
      const bare: Data = {
        ...fullCase,
        events: undefined,
        images: undefined,
        findings: undefined,
        aftercare: undefined,
      };
      delete bare['events'];
      delete bare['images'];
      delete bare['findings'];
      delete bare['aftercare'];
      // Of what the case itself showed an allergy is no less.
      delete bare['contrast'];
      delete bare['complications'];
      const asked = { negativeStatements: true };
      const none = resourcesOf(changed(bare, path, 'none'), asked);
      const absent = resourcesOf(changed(bare, path, undefined), asked);
      expect(none).toBeDefined();
      expect(absent).toBeDefined();
      expect(none).not.toBe(absent);
    },
  );
});
