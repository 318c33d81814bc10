import { readdirSync, readFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import { describe, expect, test } from 'vitest';
import { nativeInvariants } from '../../../src/conformance/check/native-invariants.js';
import { rootPlace } from '../../../src/conformance/check/place.js';
import type { Json, JsonObject } from '../../../src/json/parse.js';
import { document, patient, procedure, transaction } from '../bases.js';
import type { Loose } from '../validators.js';

// The FHIRPath library is the outside source: each hand-written invariant must agree with its expression.
const require = createRequire(import.meta.url);
const fhirpath = require('fhirpath');
const model = require('fhirpath/fhir-context/r4');

const modules = new URL('../../../node_modules/', import.meta.url);

/** Invariants that other checks report with more detail, or that FHIRPath cannot evaluate by itself. */
const elsewhere = [/^htmlChecks/, /^reference\.startsWith/, /resolve\(\)/];

/** dom-3 as published calls as() on many items, which FHIRPath refuses; ofType() is what it means. */
const dom3 =
  "contained.where((('#'+id in (%resource.descendants().reference | %resource.descendants().ofType(canonical) | " +
  "%resource.descendants().ofType(uri) | %resource.descendants().ofType(url))) or descendants().where(reference = '#').exists() " +
  "or descendants().ofType(canonical).where($this = '#').exists()).not()).empty()";

function byFhirPath(published: string, base: string, value: Loose, root: Loose): boolean {
  const expression = published.includes('as(canonical)') ? dom3 : published;
  const evaluate = fhirpath.compile({ base, expression }, model, { traceFn: () => undefined });
  const found = evaluate(structuredClone(value), { resource: root, rootResource: root });
  return found.length === 1 && found[0] === true;
}

function byHand(expression: string, value: Loose, root: Loose): boolean | string | undefined {
  const native = nativeInvariants.get(expression);
  return native?.(value as Json, {
    resource: root as JsonObject,
    root: root as JsonObject,
    place: rootPlace(root.resourceType, root),
  });
}

function expressions(pattern: RegExp): string[] {
  return [...nativeInvariants.keys()].filter(e => pattern.test(e) && !elsewhere.some(x => x.test(e)));
}

const entryRules = expressions(/^fullUrl|^resource\.exists/);
const bundleRules = expressions(/^(?!.*event\.detail).*entry\./);
const domainRules = expressions(/^contained|^text\./);

const change = (make: () => Loose, spoil: (r: Loose) => void) => {
  const made = make();
  spoil(made);
  return made;
};

const bundles: Loose[] = [
  document(),
  transaction(),
  change(document, r => r.entry.push(r.entry[0])),
  change(document, r => {
    r.entry[1].request = { method: 'GET', url: 'Patient/1' };
  }),
  change(document, r => {
    r.entry[1].response = { status: '200' };
  }),
  change(transaction, r => delete r.entry[1].request),
  change(transaction, r => {
    r.type = 'history';
  }),
  change(document, r => {
    r.type = 'batch-response';
  }),
  change(document, r => {
    r.entry[2].resource.meta = { versionId: '2' };
    r.entry.push(structuredClone(r.entry[2]));
    r.entry[4].resource.meta.versionId = '3';
  }),
  change(document, r => {
    r.entry[1].fullUrl = 'http://example.org/Patient/1/_history/2';
  }),
  change(document, r => delete r.entry),
  { resourceType: 'Bundle', type: 'collection', entry: [{ fullUrl: 'urn:uuid:1' }] },
];

const resources: Loose[] = [
  procedure(),
  patient(),
  change(procedure, r => delete r.text),
  change(procedure, r => delete r.performer),
  change(procedure, r => {
    r.contained[0].contained = [{ resourceType: 'Patient' }];
  }),
  change(procedure, r => {
    r.contained[0].meta = { versionId: '1' };
  }),
  change(procedure, r => {
    r.contained[0].meta = { lastUpdated: '2024-03-14T09:00:00Z' };
  }),
  change(procedure, r => {
    r.contained[0].meta = { security: [{ code: 'R' }] };
  }),
  change(procedure, r => {
    delete r.performer;
    r.contained[0] = { resourceType: 'Observation', id: 'op', focus: [{ reference: '#' }] };
  }),
  change(procedure, r => {
    delete r.performer;
    r.instantiatesCanonical = ['#op'];
  }),
];

describe.each(bundleRules)('%s', expression => {
  test.each(bundles.map((b, n) => [n, b] as const))('agrees on bundle %i', (_n, bundle) => {
    expect(byHand(expression, bundle, bundle)).toBe(byFhirPath(expression, 'Bundle', bundle, bundle));
  });
});

describe.each(entryRules)('%s', expression => {
  test.each(bundles.map((b, n) => [n, b] as const))('agrees on the entries of bundle %i', (_n, bundle) => {
    for (const entry of bundle.entry ?? []) {
      expect(byHand(expression, entry, bundle)).toBe(byFhirPath(expression, 'Bundle.entry', entry, bundle));
    }
  });
});

describe.each(domainRules)('%s', expression => {
  test.each(resources.map((r, n) => [n, r] as const))('agrees on resource %i', (_n, resource) => {
    expect(byHand(expression, resource, resource)).toBe(
      byFhirPath(expression, resource.resourceType, resource, resource),
    );
  });
});

describe('what our profiles ask of a document and of a use', () => {
  const about =
    'entry.first().resource.event.detail.reference = entry.where(resource.ofType(Procedure).where(partOf.empty()).exists()).fullUrl';
  const one = 'entry.resource.ofType(Procedure).where(partOf.empty()).count() = 1';
  const reports = (event: readonly Loose[], ...procedures: readonly Loose[]): Loose => ({
    resourceType: 'Bundle',
    type: 'document',
    entry: [
      { fullUrl: 'urn:uuid:0', resource: { resourceType: 'Composition', event } },
      ...procedures.map((more, n) => ({
        fullUrl: `urn:uuid:${n + 1}`,
        resource: { resourceType: 'Procedure', ...more },
      })),
    ],
  });
  const detail = (...numbers: readonly number[]) => ({
    detail: numbers.map(n => ({ reference: `urn:uuid:${n}` })),
  });
  const part = { partOf: [{ reference: 'urn:uuid:1' }] };
  const all: readonly (readonly [string, Loose])[] = [
    ['the case', reports([detail(1)], {}, part)],
    ['another', reports([detail(2)], {}, part)],
    ['two whole ones', reports([detail(1, 2)], {}, {})],
    ['two, one of them told', reports([detail(1)], {}, {})],
    ['none', reports([detail(1)], part)],
    ['no detail', reports([{}], {})],
    ['no event', reports([], {})],
    ['two events', reports([detail(1), detail(1)], {})],
    ['a detail without address', reports([{ detail: [{ display: 'a' }] }], {})],
  ];
  test.each(all)('document: %s', (_name, bundle) => {
    expect(byHand(one, bundle, bundle)).toBe(byFhirPath(one, 'Bundle', bundle, bundle));
    // What is not plain is the library's own.
    const plain = byHand(about, bundle, bundle);
    if (plain !== undefined) expect(plain).toBe(byFhirPath(about, 'Bundle', bundle, bundle));
  });
  test('a plain document is judged by hand', () => {
    expect(all.slice(0, 2).map(([, bundle]) => byHand(about, bundle, bundle))).toEqual([true, false]);
  });

  const over = "status = 'active' implies timing.ofType(Period).where(end < %resource.recordedOn).empty()";
  const use = (more: Loose): Loose => ({
    ...{ resourceType: 'DeviceUseStatement', recordedOn: '2026-03-02T10:00:00Z' },
    ...more,
  });
  test.each([
    [use({ status: 'active' }), true],
    [use({ status: 'active', timingPeriod: { start: '2026-03-02' } }), true],
    [use({ status: 'active', timingDateTime: '2026-03-02' }), true],
    [use({ status: 'completed', timingPeriod: { end: '2026-03-01T10:00:00Z' } }), true],
    [use({ status: 'active', timingPeriod: { end: '2026-03-01T10:00:00Z' } }), undefined],
    [use({ status: 'active', timingPeriod: { end: '2026-04-01T10:00:00Z' } }), undefined],
    [use({ timingPeriod: { end: '2026-03-01T10:00:00Z' } }), undefined],
  ] as const)('use: %j', (value, hand) => {
    expect(byHand(over, value, value)).toBe(hand);
    if (hand !== undefined) expect(byFhirPath(over, 'DeviceUseStatement', value, value)).toBe(hand);
  });
});

describe('quantities and extensions', () => {
  const quantity = 'code.empty() or system.exists()';
  const contact = 'value.empty() or system.exists()';
  const extension = 'extension.exists() != value.exists()';
  test.each([{}, { value: 1 }, { code: 'mm' }, { code: 'mm', system: 'http://unitsofmeasure.org' }])(
    'qty-3 %j',
    value => {
      expect(byHand(quantity, value, patient())).toBe(byFhirPath(quantity, 'Quantity', value, patient()));
    },
  );
  test.each([{ use: 'home' }, { value: 'a' }, { value: 'a', system: 'phone' }])('cpt-2 %j', value => {
    expect(byHand(contact, value, patient())).toBe(byFhirPath(contact, 'ContactPoint', value, patient()));
  });
  test.each([
    { url: 'http://example.org/a' },
    { url: 'http://example.org/a', valueString: 'a' },
    { url: 'http://example.org/a', extension: [{ url: 'b', valueCode: 'c' }] },
    { url: 'http://example.org/a', valueString: 'a', extension: [{ url: 'b', valueCode: 'c' }] },
  ])('ext-1 %j', value => {
    expect(byHand(extension, value, patient())).toBe(byFhirPath(extension, 'Extension', value, patient()));
  });
  test('ele-1 asks for more than an id', () => {
    const expression = 'hasValue() or (children().count() > id.count())';
    for (const value of [{ id: 'a' }, { id: 'a', text: 'b' }, { text: 'b' }]) {
      expect(byHand(expression, value, patient())).toBe(
        byFhirPath(expression, 'CodeableConcept', value, patient()),
      );
    }
  });
});

describe('observations and organizations', () => {
  const obs7 =
    'value.empty() or component.code.where(coding.intersect(%resource.code.coding).exists()).empty()';
  const dose = { coding: [{ system: 'http://loinc.org', code: '18748-4' }] };
  const other = { coding: [{ system: 'http://example.org/a', code: 'b' }] };
  test.each([
    { code: dose },
    { code: dose, valueString: 'a' },
    { code: dose, valueString: 'a', component: [{ code: other }] },
    { code: dose, valueString: 'a', component: [{ code: other }, { code: dose }] },
    { code: dose, component: [{ code: dose }] },
    { code: { text: 'a' }, valueString: 'a', component: [{ code: { text: 'a' } }] },
  ])('obs-7 %j', part => {
    const whole = { resourceType: 'Observation', status: 'final', ...part };
    expect(byHand(obs7, whole, whole)).toBe(byFhirPath(obs7, 'Observation', whole, whole));
  });
  const org1 = '(identifier.count() + name.count()) > 0';
  test.each([{}, { name: 'a' }, { identifier: [{ value: 'b' }] }, { alias: ['c'] }])('org-1 %j', part => {
    const whole = { resourceType: 'Organization', ...part };
    expect(byHand(org1, whole, whole)).toBe(byFhirPath(org1, 'Organization', whole, whole));
  });
});

describe('rng-2', () => {
  const rule = 'low.empty() or high.empty() or (low <= high)';
  const q = (value: number, code?: string) =>
    code === undefined ? { value, unit: 'mm' } : { value, code, system: 'http://unitsofmeasure.org' };
  test.each([
    [q(1, 'mm'), q(2, 'mm'), true],
    [q(2, 'mm'), q(1, 'mm'), false],
    [q(9, 'mm'), q(1, 'cm'), true],
    [q(11, 'mm'), q(1, 'cm'), false],
    [q(2), q(1), false],
    [q(1), q(2), true],
  ])('%j to %j: %s', (low, high, holds) => {
    expect(byHand(rule, { low, high }, patient())).toBe(holds);
  });
  test('says so when the units measure different things', () => {
    expect(byHand(rule, { low: q(1, 'mm'), high: q(2, 'mg') }, patient())).toMatch(/cannot be compared/);
  });
});

describe('times and states', () => {
  const period = 'start.hasValue().not() or end.hasValue().not() or (start <= end)';
  const moments = [
    '2024-03-14',
    '2024-03-15',
    '2024-03-14T09:00:00Z',
    '2024-03-14T09:00:00+01:00',
    '2024-03-14T09:00:00.5Z',
    undefined,
  ];
  test('per-1 over all pairs of moments', () => {
    for (const start of moments) {
      for (const end of moments) {
        const value = { ...(start !== undefined && { start }), ...(end !== undefined && { end }) };
        const hand = byHand(period, value, patient());
        if (hand !== undefined)
          expect(hand, `${start} ${end}`).toBe(byFhirPath(period, 'Period', value, patient()));
      }
    }
  });
  // Source: FHIR R4 4.0.1, StructureDefinition dateTime, regex: `:([0-5][0-9]|60)`. The path language cannot read second 60.
  test('per-1 with a leap second, which is over before the next minute is', () => {
    const leap = '2016-12-31T23:59:60Z';
    const held = (start: string, end: string) => byHand(period, { start, end }, patient());
    expect(held('2016-12-31T23:59:59Z', leap)).toBe(true);
    expect(held(leap, '2017-01-01T00:00:00Z')).toBe(true);
    expect(held(leap, '2016-12-31T23:59:59Z')).toBe(false);
    expect(held('2017-01-01T00:00:01Z', leap)).toBe(false);
  });
  const repeats = [
    {},
    { duration: 0 },
    { duration: -1 },
    { duration: 5 },
    { period: -1 },
    { period: 1 },
    { offset: 5 },
    { offset: 5, when: ['ACM'] },
    { offset: 5, when: ['C'] },
    { when: ['C'] },
  ];
  test.each(expressions(/^(duration\.exists|period\.exists|offset\.empty)/))('%s', rule => {
    for (const value of repeats) {
      const hand = byHand(rule, value, patient());
      if (hand !== undefined)
        expect(hand, JSON.stringify(value)).toBe(byFhirPath(rule, 'Timing.repeat', value, patient()));
    }
  });
  test.each(expressions(/as dateTime/))('%s', rule => {
    for (const value of ['2024', '2024-03', '2024-03-14', '2024-03-14T09:00:00Z']) {
      expect(byHand(rule, value, patient()), value).toBe(byFhirPath(rule, 'dateTime', value, patient()));
    }
  });
  test.each(expressions(/^where\(use/))('%s', rule => {
    for (const value of [{}, { use: 'home' }, { use: 'work' }]) {
      expect(byHand(rule, value, patient())).toBe(byFhirPath(rule, 'Address', value, patient()));
    }
  });
  test.each(expressions(/^clinicalStatus/))('%s', rule => {
    const error = {
      coding: [
        { system: 'http://terminology.hl7.org/CodeSystem/condition-ver-status', code: 'entered-in-error' },
      ],
    };
    for (const part of [
      {},
      { clinicalStatus: { text: 'active' } },
      { category: [{ text: 'problem-list-item' }] },
      { category: [{ text: 'a' }], verificationStatus: error },
      { category: [{ text: 'a' }], verificationStatus: { text: 'b' } },
    ]) {
      const value = { resourceType: 'Condition', ...part };
      expect(byHand(rule, value, value), JSON.stringify(part)).toBe(
        byFhirPath(rule, 'Condition', value, value),
      );
    }
  });
});

test('each hand-written expression is one that R4, R5, the patient summary or our profiles publish', () => {
  const published = new Set<string>();
  const packages = ['hl7.fhir.r4.examples/', 'hl7.fhir.r5.core/', 'hl7.fhir.uv.ips/'];
  const folders = [...packages.map(name => new URL(name, modules)), new URL('../profiles/', modules)];
  const files = folders.flatMap(folder => readdirSync(folder).map(name => new URL(name, folder)));
  for (const file of files) {
    if (!/\/StructureDefinition-/.test(file.pathname)) continue;
    const { snapshot, differential } = JSON.parse(readFileSync(file, 'utf8')) as Loose;
    for (const element of (snapshot ?? differential)?.element ?? []) {
      for (const constraint of element.constraint ?? []) published.add(constraint.expression);
    }
  }
  expect([...nativeInvariants.keys()].filter(e => !published.has(e))).toEqual([]);
});
