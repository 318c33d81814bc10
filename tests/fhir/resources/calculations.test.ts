import { readFileSync } from 'node:fs';
import type { CodeSystem, Observation } from 'fhir/r4.js';
import { describe, expect, it } from 'vitest';
import { calculationKinds } from '../../../src/clinical/calculation.js';
import { exampleFiles, fullSite, knownExample } from '../../support/examples.js';

const system: CodeSystem = JSON.parse(
  readFileSync(new URL('../../../profiles/CodeSystem-calculation.json', import.meta.url), 'utf8'),
);
const figuresOf = (file: string) =>
  knownExample(file, fullSite).resources.entries.flatMap(({ role, resource }) =>
    role.startsWith('calculation/') && resource.resourceType === 'Observation' ? [{ role, resource }] : [],
  );
const biliary = new Map(
  figuresOf('biliary-drainage-and-stent.yaml').map(({ role, resource }) => [role, resource]),
);
const figure = (role: string): Observation => biliary.get(`calculation/${role}`) ?? expect.fail(role);

describe('a figure that was worked out', () => {
  it('has a code for each kind in our own code system, and no other', () => {
    expect(system.concept?.map(({ code }) => code)).toEqual([...calculationKinds]);
    expect(system.count).toBe(calculationKinds.length);
  });

  it.each(exampleFiles)('carries the code of its kind in %s', file => {
    for (const { role, resource } of figuresOf(file)) {
      const [coding, ...others] = resource.code.coding ?? [];
      expect(others).toEqual([]);
      expect(coding?.system).toBe(system.url);
      expect(role.startsWith(`calculation/${coding?.code}`), role).toBe(true);
    }
  });

  it('is of the time of what it was worked out from, and says of which observations', () => {
    const egfr = figure('egfr');
    // The creatinine of the example was taken at 06:10, the case ended at 10:22.
    expect(egfr.effectiveDateTime).toBe('2024-05-22T06:10:00-03:00');
    const { entries } = knownExample('biliary-drainage-and-stent.yaml', fullSite).resources;
    const from = egfr.derivedFrom?.map(
      ({ reference }) => entries.find(e => e.fullUrl === reference)?.resource,
    );
    expect(from).toMatchObject([{ resourceType: 'Observation', code: { text: 'creatinine' } }]);
    expect(egfr.category?.[0]?.coding?.[0]?.code).toBe('laboratory');
  });

  it('is of the end of the case where its inputs have no time, and derived from nothing that is not there', () => {
    const risk = figure('bleeding-risk');
    expect(risk.effectiveDateTime).toBe('2024-05-22T10:22:00-03:00');
    expect(risk.derivedFrom).toBeUndefined();
    expect(risk.category?.[0]?.coding?.[0]?.code).toBe('procedure');
  });
});
