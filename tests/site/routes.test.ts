import { describe, expect, it } from 'vitest';
import { parseSite } from '../../src/site/parse.js';
import { routesOf } from '../../src/site/routes.js';

const site = (routes: string) => `
casetallySite: 1
name: Invented Hospital
namespace: 5b0f3c52-9d1e-4d0c-8c6a-0d6f2a7e4b11
organization: { name: Invented Hospital }
destinations:
  records: { url: https://records.example.org/fhir }
  archive: { url: https://archive.example.org/fhir, fhirVersion: 5.0.0, mode: batch }
routes:
${routes}
`;
const parsed = (routes: string) => {
  const { site: read, findings } = parseSite(site(routes));
  if (!read) throw new Error(JSON.stringify(findings));
  return read.routes;
};
const aCase = (kind: string, status = 'final', more = {}) =>
  ({ case: { kind, ...more }, report: { status } }) as never;

describe('routes', () => {
  const routes = parsed(`
  - { to: records }
  - { to: archive, kinds: [Biliary drainage, embolisation], statuses: [final, amended] }
  - { to: archive, urgencies: [emergency] }
  - { to: records, categories: [diagnostic] }
`);

  it.each([
    ['biliary drainage', 'final', {}, ['records', 'archive']],
    ['biliary drainage', 'preliminary', {}, ['records']],
    ['liver biopsy', 'final', {}, ['records']],
    ['liver biopsy', 'preliminary', { urgency: 'emergency', category: 'diagnostic' }, ['records', 'archive']],
  ])('%s, %s, %j: %j', (kind, status, more, expected) => {
    expect(routesOf(routes, aCase(kind, status, more))).toEqual(expected);
  });

  it('takes a case that no rule names nowhere', () => {
    expect(routesOf(parsed('  - { to: records, kinds: [angioplasty] }'), aCase('liver biopsy'))).toEqual([]);
  });

  it('holds a condition against a case that does not say', () => {
    expect(routesOf(parsed('  - { to: records, urgencies: [elective] }'), aCase('liver biopsy'))).toEqual([]);
  });

  it.each([
    ['  - { to: elsewhere }', 'routes[0].to'],
    ['  - { to: records, statuses: [finished] }', 'routes[0].statuses[0]'],
    ['  - { to: records, kinds: [] }', 'routes[0].kinds'],
    ['  - { to: records, kind: [x] }', 'routes[0].kind'],
  ])('%s is a fault of the site file at %s', (text, path) => {
    const { findings } = parseSite(site(text));
    expect(findings.map(f => f.path)).toEqual([path]);
    expect(findings[0]?.line).toBeGreaterThan(1);
  });
});
