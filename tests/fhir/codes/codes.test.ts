import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { codeModules } from '../../../scripts/codes/tables.js';
import * as clinical from '../../../src/fhir/codes/clinical.js';
import * as conditions from '../../../src/fhir/codes/conditions.js';
import * as devices from '../../../src/fhir/codes/devices.js';
import * as documents from '../../../src/fhir/codes/document.js';
import * as medication from '../../../src/fhir/codes/medication.js';
import * as procedures from '../../../src/fhir/codes/procedures.js';
import * as sites from '../../../src/fhir/codes/sites.js';
import { codingOf, type KnownCode, SNOMED } from '../../../src/fhir/codes/types.js';
import { mayBeSent } from '../../../src/fhir/concept.js';
import { options as mappingOptions } from '../cases.js';

/*
 * Every code is looked for, with its display, in the file of the FHIR package that its row names
 * (hl7.fhir.r4.examples 4.0.1, hl7.terminology.r4 7.0.1, hl7.fhir.uv.ips 2.0.0 from the package registry).
 */
const tables = { clinical, conditions, devices, documents, medication, procedures, sites };

const GPS = 'hl7.terminology.r4/ValueSet-snomed-intl-gps.json';

/** Codes that none of these packages carries. */
const fromMemory = ['1296925008'];

function isKnown(value: object): value is KnownCode {
  return 'system' in value && 'code' in value && 'display' in value;
}

function codesIn(value: unknown): KnownCode[] {
  if (typeof value !== 'object' || value === null) return [];
  if (isKnown(value)) return [value];
  return Object.values(value).flatMap(codesIn);
}

const all = [
  ...new Map(
    codesIn(tables).map(known => [`${known.system}|${known.code}|${known.display}`, known]),
  ).values(),
];

const texts = new Map<string, ReadonlySet<string>>();

/** Each `code|display` that stands side by side in a file, read from its text and not by the way that made the tables. */
function pairsOf(file: string): ReadonlySet<string> {
  const known = texts.get(file);
  if (known) return known;
  const text = readFileSync(new URL(`../../../node_modules/${file}`, import.meta.url), 'utf8');
  const written = text.matchAll(
    /"code"\s*:\s*"([^"]+)"[^{}[\]]*?"display"\s*:\s*"((?:[^"\\]|\\.)*)"|"display"\s*:\s*"((?:[^"\\]|\\.)*)"[^{}[\]]*?"code"\s*:\s*"([^"]+)"/g,
  );
  const shown = text.matchAll(/>(\d+)<\/a>(?:\\n|\s)*<\/td>(?:\\n|\s)*<td>([^<]+)<\/td>/g);
  const found = new Set([
    ...[...written].map(([, a, b, c, d]) => `${a ?? d}|${JSON.parse(`"${b ?? c}"`)}`),
    ...[...shown].map(([, code, display]) => `${code}|${display}`),
  ]);
  texts.set(file, found);
  return found;
}

describe('codes', () => {
  it('are made from the table and from the packages, as they stand today', () => {
    const made = codeModules();
    expect(made.size).toBe(Object.keys(tables).length + 1);
    for (const [name, text] of made)
      expect(
        readFileSync(new URL(`../../../src/fhir/codes/${name}`, import.meta.url), 'utf8'),
        'run npm run docs',
      ).toBe(text);
  });

  it('are carried, with their display, by the file that they name', () => {
    const sourced = all.filter(({ source }) => source !== undefined);
    expect(sourced.length).toBeGreaterThan(350);
    const missing = sourced.filter(
      ({ source = '', code, display }) => !pairsOf(source.split('#')[0] ?? '').has(`${code}|${display}`),
    );
    expect(missing).toEqual([]);
  });

  it('of SNOMED CT are in the free Global Patient Set, or else marked as sent under a licence alone', () => {
    const free = readFileSync(new URL(`../../../node_modules/${GPS}`, import.meta.url), 'utf8');
    const snomed = all.filter(known => known.system === SNOMED && known.only !== 'memory');
    expect(snomed.length).toBeGreaterThan(300);
    for (const { code, only } of snomed)
      expect([code, only]).toEqual([code, free.includes(`"${code}"`) ? undefined : 'licensed']);
  });

  it('from memory are exactly those listed here, and are sent only where a site wants them', () => {
    const remembered = all.filter(({ source }) => source === undefined);
    expect(remembered.map(({ code }) => code)).toEqual(fromMemory);
    for (const known of remembered) {
      expect(known.only).toBe('memory');
      expect(codingOf(known)).toEqual({ system: known.system, code: known.code });
      expect(mayBeSent({ ...mappingOptions, snomedLicence: true }, known)).toBe(false);
      expect(mayBeSent({ ...mappingOptions, codesFromMemory: true }, known)).toBe(true);
    }
  });
});
