import { createHmac } from 'node:crypto';
import { describe, expect, it } from 'vitest';
import { parse, stringify } from 'yaml';
import { messageOf } from '../../src/findings/finding.js';
import { checkCase } from '../../src/pipeline/check.js';
import { ageGroup } from '../../src/registry/entry/case.js';
import { askedElements } from '../../src/registry/entry/elements.js';
import { type EntryExtras, registryEntries } from '../../src/registry/entry/entries.js';
import { type RegistryOptions, registrySchema } from '../../src/registry/options.js';
import { pseudonym } from '../../src/registry/pseudonym.js';
import { unconfiguredSite } from '../../src/site/site.js';
import { drainCase } from '../support/drain-life.js';
import { exampleFiles, exampleText, testTools } from '../support/examples.js';

const key = { id: 'k1', secret: Buffer.from('a secret of the test, long enough') };
const narrow = registrySchema.parse({ name: 'Test' });

/** Everything that a definition can ask for. */
const widest: EntryExtras = {
  ...{ asked: new Set(askedElements), codes: { snomedLicence: true, codesFromMemory: true }, unit: 'Ward 7' },
};

function entriesOf(text: string, options: RegistryOptions = narrow, extras: EntryExtras = {}) {
  const { record, assessment, findings } = checkCase(text, unconfiguredSite);
  if (!record || !assessment) throw new Error(findings.map(f => `${f.path}: ${messageOf(f)}`).join('\n'));
  return { record, ...registryEntries(record, assessment, options, key, extras) };
}

/** Fields that hold codes, numbers, dates, keys or fixed words: a canary would only make the record unreadable. */
const typed = new Set([
  'system',
  'code',
  'date',
  'timeZone',
  'study',
  'series',
  'value',
  'key',
  'identifier',
  'case',
]);

/** Puts a canary behind every free text of a case and says which ones were put in. */
function withCanaries(text: string): { text: string; canaries: string[] } {
  const canaries: string[] = [];
  const plant = (node: unknown, name: string, path: string): unknown => {
    if (Array.isArray(node)) return node.map((item, index) => plant(item, name, `${path}.${index}`));
    if (typeof node === 'object' && node !== null)
      return Object.fromEntries(Object.entries(node).map(([k, v]) => [k, plant(v, k, `${path}.${k}`)]));
    // A kind of case that nobody knows gives no entries at all.
    if (typeof node !== 'string' || typed.has(name) || path === '.case.kind') return node;
    const canary = `Canary${canaries.length}Kowalczyk`;
    const changed = `${node} ${canary}`;
    if (!tryOut(path, changed)) return node;
    canaries.push(canary);
    return changed;
  };
  const original: unknown = parse(text);
  // A field that takes free text still reads with the canary behind it.
  const tryOut = (path: string, value: string): boolean => {
    const copy = structuredClone(original);
    const segments = path.split('.').slice(1);
    let here = copy as Record<string, unknown>;
    for (const segment of segments.slice(0, -1)) here = here[segment] as Record<string, unknown>;
    here[segments.at(-1) ?? ''] = value;
    return checkCase(stringify(copy), unconfiguredSite).record !== undefined;
  };
  return { text: stringify(plant(original, '', '')), canaries };
}

describe('registry entries', () => {
  it('are built up: no free text of a case comes through', () => {
    const { text, canaries } = withCanaries(exampleText('cut-locking-drain.yaml'));
    expect(canaries.length).toBeGreaterThan(40);
    for (const extras of [{}, widest]) {
      const { entries } = entriesOf(text, narrow, extras);
      expect(entries.length).toBeGreaterThan(0);
      expect(JSON.stringify(entries.map(({ resource, elements }) => [resource, elements]))).not.toContain(
        'Canary',
      );
    }
  });

  it('have what a definition asks for, each as a code, a number or a pseudonym', () => {
    const texts = [
      ...exampleFiles.map(exampleText),
      drainCase({ id: 'A', date: '2024-01-10', placed: 'L1' }),
    ];
    const all = texts.flatMap(text => entriesOf(text, narrow, widest).entries);
    const found = new Set(all.flatMap(({ elements }) => Object.keys(elements)));
    // What the register alone knows is not there.
    expect(askedElements.filter(name => !found.has(name))).toEqual(['placedEntry']);
    for (const { elements } of all) {
      for (const code of [elements.site, ...(elements.indication ?? [])])
        if (code !== undefined) expect(code).toMatch(/^http:\/\/[^|]+\|[\w.-]+$/);
      for (const name of [elements.unit, elements.operator])
        if (name !== undefined) expect(name).toMatch(/^k1\.[0-9a-f]{32}$/);
    }
  });

  it.each(exampleFiles)('%s: names no patient, person, place or number', file => {
    const { record, entries } = entriesOf(exampleText(file), narrow, widest);
    const json = JSON.stringify(entries.map(({ resource, elements }) => [resource, elements]));
    const secrets = [
      record.patient.name,
      record.patient.birthDate?.iso,
      record.case.id,
      record.case.accession,
      record.case.location?.name,
      record.case.organization?.name,
      ...record.patient.identifiers.map(i => i.value),
      ...record.team.map(member => member.name),
      ...Object.values(record.devices ?? {}).map(device => device.serial),
    ].filter(secret => secret !== undefined);
    for (const secret of secrets) expect(json).not.toContain(secret);
  });

  it.each(exampleFiles)('%s: each entry is a FHIR R4 resource without error', file => {
    const { entries } = entriesOf(exampleText(file));
    for (const { resource } of [...entries, ...entriesOf(exampleText(file), narrow, widest).entries]) {
      const { issues } = testTools().validator.validateText(JSON.stringify(resource));
      expect(
        issues
          .filter(i => i.severity === 'error' || i.severity === 'fatal')
          .map(i => `${i.path}: ${i.message}`),
      ).toEqual([]);
    }
  });

  it('name what is missing, with case and place', () => {
    const text = exampleText('cut-locking-drain.yaml')
      .replace(/ label: "[^"]*",?/g, ' ')
      .replace(/ udi: "[^"]*",?/g, ' ');
    const { record, entries } = entriesOf(text);
    const found = entries.flatMap(({ findings }) => findings);
    expect(
      found.some(f => f.code === 'registry.identifier-missing' && messageOf(f).includes(record.case.id)),
    ).toBe(true);
  });

  it('follows the settings: dates, serials, lots', () => {
    const text = exampleText('ureteric-stent-tumour.yaml');
    const wide = registrySchema.parse({
      name: 'Test',
      dates: 'day',
      serials: 'keep',
      lots: 'leave out',
      ages: 'years',
    });
    const json = JSON.stringify(entriesOf(text, wide).entries.map(e => e.resource));
    expect(json).toContain('2023-11-08');
    expect(json).toContain('007733');
    expect(json).not.toContain('NSCR23B');
    const lean = JSON.stringify(entriesOf(text).entries.map(e => e.resource));
    expect(lean).not.toContain('2023-11-08');
    expect(lean).toContain('2023-11');
    expect(lean).not.toContain('007733');
    expect(lean).toContain('NSCR23B');
  });
});

describe('pseudonyms', () => {
  // HMAC-SHA-256, RFC 2104 and FIPS 180-4, by the platform's own implementation.
  it('are keyed digests that carry the name of their key', () => {
    const expected = createHmac('sha256', key.secret)
      .update('patient\u0000x', 'utf8')
      .digest('hex')
      .slice(0, 32);
    expect(pseudonym(key, 'patient', 'x')).toBe(`k1.${expected}`);
  });

  it('differ by purpose and by key', () => {
    const all = [
      pseudonym(key, 'patient', 'x'),
      pseudonym(key, 'case', 'x'),
      pseudonym(key, 'serial', 'x'),
      pseudonym({ ...key, secret: Buffer.from('another') }, 'patient', 'x'),
    ];
    expect(new Set(all).size).toBe(4);
  });
});

// 45 CFR 164.514(b)(2)(i)(C): ages over 89 are one category; from memory.
describe('age groups', () => {
  it.each([
    [0, '0-4'],
    [44, '40-44'],
    [45, '45-49'],
    [89, '85-89'],
    [90, '90+'],
    [104, '90+'],
  ])('%s is %s', (age, group) => expect(ageGroup(age, 'five years')).toBe(group));
  it('groups the oldest even where years are sent', () => {
    expect([ageGroup(89, 'years'), ageGroup(91, 'years')]).toEqual(['89', '90+']);
  });
});
