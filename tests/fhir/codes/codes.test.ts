import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import * as clinical from '../../../src/fhir/codes/clinical.js';
import * as devices from '../../../src/fhir/codes/devices.js';
import * as documents from '../../../src/fhir/codes/document.js';
import * as followUps from '../../../src/fhir/codes/follow-up.js';
import * as procedures from '../../../src/fhir/codes/procedures.js';
import * as sections from '../../../src/fhir/codes/sections.js';
import * as sites from '../../../src/fhir/codes/sites.js';
import { type KnownCode, SNOMED } from '../../../src/fhir/codes/types.js';
import { dimensionCodes } from '../../../src/fhir/resources/device-property.js';

/*
 * Every code is looked for, with its display, in the file of the FHIR package that its row names
 * (hl7.fhir.r4.examples 4.0.1, hl7.terminology.r4 7.0.1, hl7.fhir.uv.ips 2.0.0 from the package registry).
 */
const tables = { clinical, devices, documents, followUps, procedures, sections, sites, dimensionCodes };

/** Codes that none of these packages carries: [where from]. */
const elsewhere = ['1296925008 [DICOM PS3.16 context groups 9 and 3405, current edition]'];

function isKnown(value: object): value is KnownCode {
  return 'system' in value && 'code' in value && 'display' in value && 'source' in value;
}

function codesIn(value: unknown): KnownCode[] {
  if (typeof value !== 'object' || value === null) return [];
  if (isKnown(value)) return [value];
  return Object.values(value).flatMap(codesIn);
}

const GPS = 'hl7.terminology.r4/ValueSet-snomed-intl-gps.json';

const all = [
  ...new Map(
    codesIn(tables).map(known => [`${known.system}|${known.code}|${known.display}`, known]),
  ).values(),
];

interface Node {
  readonly [key: string]: unknown;
}

/** Displays by `system|code` that one JSON file carries. */
function carried(file: string): ReadonlyMap<string, ReadonlySet<string>> {
  const found = new Map<string, Set<string>>();
  const walk = (node: unknown, system: string | undefined): void => {
    if (Array.isArray(node)) for (const item of node) walk(item, system);
    else if (typeof node === 'object' && node !== null) {
      const fields: Node = { ...node };
      const own =
        typeof fields['system'] === 'string'
          ? fields['system']
          : fields['resourceType'] === 'CodeSystem' && typeof fields['url'] === 'string'
            ? fields['url']
            : system;
      if (typeof fields['code'] === 'string' && typeof fields['display'] === 'string' && own) {
        const key = `${own}|${fields['code']}`;
        found.set(key, (found.get(key) ?? new Set()).add(fields['display']));
      }
      for (const child of Object.values(fields)) walk(child, own);
    }
  };
  const text = readFileSync(new URL(`../../../node_modules/${file}`, import.meta.url), 'utf8');
  const resource = JSON.parse(text);
  walk(resource, undefined);
  // Some value sets of R4 give the displays of their codes in the table of their narrative alone.
  const rows = String(resource.text?.div).matchAll(/>(\d+)<\/a>\s*<\/td>\s*<td>([^<]+)<\/td>/g);
  const include: { system: string; concept?: { code: string; display?: string }[] }[] =
    resource.resourceType === 'ValueSet' ? (resource.compose?.include ?? []) : [];
  for (const [, code, display] of rows)
    for (const { system, concept } of include)
      if (concept?.some(c => c.code === code && c.display === undefined))
        found.set(`${system}|${code}`, new Set([String(display)]));
  return found;
}

const files = new Map<string, ReadonlyMap<string, ReadonlySet<string>>>();

describe('codes', () => {
  it('are many enough for this test to mean something', () => {
    expect(all.length).toBeGreaterThan(100);
  });

  it.each(all.filter(known => !known.source.startsWith('[')))(
    '$system $code $display is carried by $source',
    known => {
      if (!files.has(known.source)) files.set(known.source, carried(known.source));
      const displays = files.get(known.source)?.get(`${known.system}|${known.code}`);
      expect([...(displays ?? [])]).toContain(known.display);
    },
  );

  it('of SNOMED CT are in the free Global Patient Set, or else marked as sent under a licence alone', () => {
    const free = carried(GPS);
    const snomed = all.filter(known => known.system === SNOMED);
    expect(snomed.length).toBeGreaterThan(50);
    for (const known of snomed)
      expect([known.code, known.licensed === true]).toEqual([
        known.code,
        !free.has(`${SNOMED}|${known.code}`),
      ]);
  });

  it('from elsewhere are exactly those listed here', () => {
    expect(
      all.filter(known => known.source.startsWith('[')).map(known => `${known.code} ${known.source}`),
    ).toEqual(elsewhere);
  });
});
