import { describe, expect, it } from 'vitest';
import { NOT_ASKED, nodeByLinkId } from '../../../src/intake/form/model.js';
import { questionnaire } from '../../../src/intake/form/questionnaire.js';
import { writeFhirJson } from '../../../src/json/write.js';
import { MAX_ENTRIES } from '../../../src/record/bounds.js';
import { allFields } from '../../../src/record/keys.js';
import { parseCase } from '../../../src/record/parse.js';
import { recordSchema } from '../../../src/record/schema/record.js';

/** The item that answers for a field of the schema: `devices.*.lot`, `before.labs[].what.codes[].system`. */
function answers(field: string): boolean {
  const path = field
    .replace(/\[\]/g, '')
    .replace(/\.\*/g, '')
    // A condition may be text with codes alone: the form asks for that in one place.
    .replace(/^before\.conditions\.(?=text|codes)/, 'before.conditions.what.');
  const node = nodeByLinkId.get(path);
  if (node) return true;
  const last = path.slice(path.lastIndexOf('.') + 1);
  const around = nodeByLinkId.get(path.slice(0, path.lastIndexOf('.')));
  // Of codes the parts, of text with codes the text.
  return around?.kind === 'codes'
    ? around.fields.includes(last)
    : around?.kind === 'coded' && last === 'text';
}

interface Item {
  readonly linkId: string;
  readonly type: string;
  readonly required?: boolean;
  readonly repeats?: boolean;
  readonly maxLength?: number;
  readonly extension?: readonly { readonly url: string; readonly valueInteger?: number }[];
  readonly item?: readonly Item[];
}
const flat = (items: readonly Item[]): Item[] => items.flatMap(item => [item, ...flat(item.item ?? [])]);

describe('the form', () => {
  const form = questionnaire({ version: '1.2.3', canonical: 'https://fhir.example.org/casetally' });
  const items = flat(form.item as Item[]);

  it('has every field of the record', () => {
    const fields = allFields(recordSchema({})).filter(field => !NOT_ASKED.has(field));
    expect(fields.length).toBeGreaterThan(400);
    expect(fields.filter(field => !answers(field))).toEqual([]);
  });

  it('has link ids once each, and an item for each that a response is read by', () => {
    const ids = items.map(({ linkId }) => linkId);
    expect(new Set(ids).size).toBe(ids.length);
    expect([...nodeByLinkId.keys()].filter(linkId => !ids.includes(linkId))).toEqual([]);
  });

  it('says how much the record takes, which refuses one more', () => {
    const of = (linkId: string) => items.find(item => item.linkId === linkId);
    const { maxLength = 0 } = of('conclusion') ?? {};
    const codes = (conclusion: string) =>
      parseCase(`casetally: 1\nconclusion: ${conclusion}\n`).findings.map(({ code }) => code);
    const longest = 'word '.repeat(maxLength).slice(0, maxLength - 1);
    expect(codes(`${longest}.`)).not.toContain('record.too-long');
    expect(codes(`${longest}..`)).toContain('record.too-long');
    for (const list of ['devices', 'events'])
      expect(of(list)?.extension).toEqual([
        {
          url: 'http://hl7.org/fhir/StructureDefinition/questionnaire-maxOccurs',
          valueInteger: MAX_ENTRIES[list],
        },
      ]);
    expect(items.filter(({ type, maxLength: most }) => type === 'text' && most === undefined)).toEqual([]);
    expect(items.filter(({ type, maxLength: most }) => type === 'group' && most !== undefined)).toEqual([]);
  });

  it('asks for what the schema asks for, and repeats what is a list', () => {
    const of = (linkId: string) => items.find(item => item.linkId === linkId);
    expect(of('case.id')).toMatchObject({ type: 'string', required: true });
    expect(of('case.date')).toMatchObject({ type: 'date', required: true });
    expect(of('case.session')).toMatchObject({ type: 'integer' });
    expect(of('devices')).toMatchObject({ type: 'group', repeats: true });
    expect(of('devices')?.item?.find(item => item.type !== 'display')).toMatchObject({
      ...{ linkId: 'devices.key', required: true },
    });
    expect(of('drugs.none')).toMatchObject({ type: 'choice' });
    expect(of('outcome.bloodLoss')).toMatchObject({ type: 'open-choice' });
    expect(of('events.with')).toMatchObject({ type: 'string', repeats: true });
    expect(of('conclusion')).toMatchObject({ type: 'text' });
    expect(of('case.accession')).not.toHaveProperty('required');
  });

  it('bears the address and the version that it was made with, and is the same each time', () => {
    expect(form).toMatchObject({
      ...{ url: 'https://fhir.example.org/casetally/Questionnaire/case-record', version: '1.2.3' },
      ...{ status: 'active', subjectType: ['Patient'] },
    });
    const again = questionnaire({ version: '1.2.3', canonical: 'https://fhir.example.org/casetally' });
    expect(writeFhirJson(again)).toBe(writeFhirJson(form));
  });

  it('gives every label in the languages of the project', () => {
    const labelled = items.filter(({ type }) => type !== 'display') as { text?: string; _text?: object }[];
    expect(labelled.filter(({ text }) => text === undefined || text === '')).toEqual([]);
    const lot = labelled.find(item => 'linkId' in item && item.linkId === 'devices.lot');
    expect(JSON.stringify(lot?._text)).toContain('"valueCode":"fr"');
  });
});
