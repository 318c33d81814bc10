import { readdirSync, readFileSync } from 'node:fs';
import { dirname, join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { describe, expect, it } from 'vitest';
import { checkDigitProblem } from '../../../src/conformance/terminology/check-digits.js';
import { english } from '../../support/english.js';
import { exampleFiles, fullSite, knownExample } from '../../support/examples.js';

const SCT = 'http://snomed.info/sct';
const LOINC = 'http://loinc.org';
type Coded = readonly [system: string, code: string];

/** Every code of the two systems inside a resource: codings, and concepts that a value set lists. */
function codesIn(value: unknown, system?: unknown): Coded[] {
  if (Array.isArray(value)) return value.flatMap(item => codesIn(item, system));
  if (typeof value !== 'object' || value === null) return [];
  const own = 'system' in value ? value.system : system;
  const here: Coded[] =
    'code' in value && typeof value.code === 'string' && (own === SCT || own === LOINC)
      ? [[own, value.code]]
      : [];
  return [...here, ...Object.values(value).flatMap(child => codesIn(child, own))];
}

const unique = (codes: readonly Coded[]) => [...new Map(codes.map(c => [c.join(' '), c])).values()];
const wrong = (codes: readonly Coded[]) => codes.filter(([system, code]) => checkDigitProblem(system, code));

describe('check digits', () => {
  // Source: the value sets of hl7.fhir.uv.ips 2.0.0, which are published with codes of both systems.
  it('are right in all codes of the patient summary package', () => {
    const folder = dirname(fileURLToPath(import.meta.resolve('hl7.fhir.uv.ips/package.json')));
    const files = readdirSync(folder).filter(name => name.startsWith('ValueSet-'));
    const codes = unique(
      files.flatMap(name => codesIn(JSON.parse(readFileSync(join(folder, name), 'utf8')))),
    );
    const numbers = codes.filter(([, code]) => /^\d+(?:-\d)?$/.test(code));
    expect(numbers.filter(([system]) => system === SCT).length).toBeGreaterThan(80);
    expect(numbers.filter(([system]) => system === LOINC).length).toBeGreaterThan(10);
    expect(wrong(numbers)).toEqual([]);
  });

  it('are right in every code that the examples send', () => {
    const codes = unique(
      exampleFiles.flatMap(file => codesIn(JSON.parse(knownExample(file, fullSite).document))),
    );
    expect(codes.length).toBeGreaterThan(50);
    expect(wrong(codes)).toEqual([]);
  });

  it('are right in every code of the tables', () => {
    const folder = join(import.meta.dirname, '..', '..', '..', 'src');
    const text = readdirSync(folder, { recursive: true, encoding: 'utf8' })
      .filter(name => /^(?:fhir.codes|trade)/.test(name) && name.endsWith('.ts'))
      .map(name => readFileSync(join(folder, name), 'utf8'))
      .join('\n');
    const called = (name: string, system: string): Coded[] =>
      [...text.matchAll(new RegExp(`\\b${name}\\(\\s*'([^']+)'`, 'g'))].map(([, code = '']) => [
        system,
        code,
      ]);
    const codes = [...called('sct', SCT), ...called('loinc', LOINC)];
    expect(codes.length).toBeGreaterThan(50);
    expect(wrong(codes)).toEqual([]);
  });

  // The scheme notices every wrong digit and every exchange of neighbours; modulus 10 misses the exchange of 0 and 9.
  it('notice each single slip', () => {
    const code = '386761002';
    for (const [place, figure] of [...code].entries())
      for (let other = place === 0 ? 1 : 0; other < 10; other += 1)
        if (String(other) !== figure) {
          const typed = code.slice(0, place) + other + code.slice(place + 1);
          expect(checkDigitProblem(SCT, typed), typed).toBeDefined();
        }
    expect(english(checkDigitProblem(SCT, '386716002'))).toContain('386761002');
    expect(english(checkDigitProblem(LOINC, '2610-0'))).toContain('2160-0');
    expect(english(checkDigitProblem(LOINC, '8867-5'))).toMatch(/^the check digit of 8867 is 4/);
  });

  it('say nothing of codes that carry none', () => {
    expect(checkDigitProblem('http://www.whocc.no/atc', 'N01BB02')).toBeUndefined();
    expect(checkDigitProblem(LOINC, 'LA6576-8')).toBeUndefined();
    expect(checkDigitProblem(SCT, '12')).toBeUndefined();
  });
});
