import { describe, expect, it } from 'vitest';
import { type Raw, sources } from '../../scripts/profiles/source.js';
import { scaleNames } from '../../src/clinical/outcome/adverse-event-scales.js';
import { doseCodes } from '../../src/fhir/codes/clinical.js';
import { deviceActionCodes, fhirDeviceActions } from '../../src/fhir/codes/devices.js';
import { outcomeCodes } from '../../src/fhir/codes/procedures.js';
import { sectionRows } from '../../src/fhir/codes/sections.js';
import type { KnownCode } from '../../src/fhir/codes/types.js';
import { deviceFamilies } from '../../src/record/schema/devices.js';
import { side } from '../../src/record/schema/places.js';
import { deviceActions } from '../../src/registry/entry/action.js';
import { complicationAnswers, removalReasons } from '../../src/registry/entry/elements.js';
import { caseKinds } from '../../src/trade/cases/table.js';

const base = 'https://casetally.example/fhir';
const find = (type: string, id: string): Raw => {
  const found = sources().find(raw => raw.resourceType === type && raw.id === id);
  if (!found) throw new Error(`${type}/${id} is not among the profiles`);
  return found;
};
const codesOf = (id: string) =>
  (find('CodeSystem', id)['concept'] as { code: string; display: string }[]).map(c => c.code);
const dashed = (texts: readonly string[]) => texts.map(text => text.replaceAll(' ', '-'));

describe('code systems hold what is written', () => {
  it('kinds of case and families of devices, exactly', () => {
    // 'other' stands in entries of earlier releases.
    const kinds = [...new Set(caseKinds.map(({ registry }) => registry)), 'other'];
    expect(codesOf('case-kind')).toEqual(dashed(kinds));
    expect(codesOf('device-family')).toEqual([...deviceFamilies]);
  });

  it('actions and outcomes of a registry, exactly', () => {
    expect(codesOf('device-action')).toEqual(dashed(deviceActions));
    expect(codesOf('complication-answer')).toEqual(dashed(complicationAnswers));
    expect(codesOf('removal-reason')).toEqual(dashed(removalReasons));
    expect(codesOf('site-side')).toEqual(side.options);
    expect(codesOf('outcome')).toEqual(dashed(Object.keys(outcomeCodes)));
  });

  it('grades of each scale of the record, and of no other', () => {
    const scales = dashed(scaleNames);
    const codes = codesOf('adverse-event-scale');
    for (const scale of scales) expect(codes.some(code => code.startsWith(`${scale}-`))).toBe(true);
    expect(codes.filter(code => !scales.some(scale => code.startsWith(`${scale}-`)))).toEqual([]);
    // Clavien-Dindo has seven grades, a suffix for disability, and two that leave the letter open (Dindo et al., Ann Surg 2004;240:205).
    expect(codes).toEqual(
      expect.arrayContaining(['Clavien-Dindo-IIIa', 'Clavien-Dindo-IVbd', 'CIRSE-2017-6', 'SIR-2017-5']),
    );
  });
});

describe('published codes of the profiles are those of the mapping', () => {
  const concepts = (id: string) =>
    (
      find('ValueSet', id)['compose'] as {
        include: { system: string; concept?: { code: string; display?: string }[] }[];
      }
    ).include
      .flatMap(({ system, concept }) =>
        (concept ?? []).map(({ code, display }) => ({ system, code, display })),
      )
      .map(row => JSON.stringify(row))
      .sort();
  const known = (codes: readonly KnownCode[]) =>
    [...new Set(codes.map(({ system, code, display }) => JSON.stringify({ system, code, display })))].sort();

  it.each<[string, readonly KnownCode[]]>([
    ['technical-outcome', Object.values(outcomeCodes)],
    [
      'device-actions',
      [
        deviceActionCodes.insertion,
        deviceActionCodes.removal,
        deviceActionCodes.adjustment,
        ...Object.values(fhirDeviceActions),
      ],
    ],
    ['dose-figures', Object.values(doseCodes).filter(({ system }) => system.includes('dicom'))],
    ['report-sections', Object.values(sectionRows).flatMap(row => ('code' in row ? [row.code] : []))],
  ])('%s', (id, codes) => {
    expect(concepts(id)).toEqual(known(codes));
  });

  it('a slice of the report for each section with a code that stands on its own', () => {
    const { element } = find('StructureDefinition', 'procedure-report')['differential'] as { element: Raw[] };
    const sliced = element.flatMap(e => {
      const key = /^Composition\.section:([^.]+)\.code$/.exec(e.id)?.[1];
      const pattern = e['patternCodeableConcept'] as { coding: { code: string }[] } | undefined;
      return key === undefined ? [] : [[key, pattern?.coding[0]?.code]];
    });
    const rows = Object.entries(sectionRows).flatMap(([key, row]) =>
      'code' in row && !('within' in row) ? [[key, row.code.code]] : [],
    );
    expect(sliced.sort()).toEqual(rows.sort());
  });
});

it('every address of ours that a profile names is defined', () => {
  const defined = new Set(sources().map(({ url }) => url));
  const named = sources().flatMap(
    raw => JSON.stringify(raw).match(new RegExp(`${base}/[A-Za-z]+/[a-z-]+`, 'g')) ?? [],
  );
  expect([...new Set(named)].filter(url => !defined.has(url))).toEqual([]);
});
