import { readdirSync, readFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import { describe, expect, test } from 'vitest';
import { nativeInvariants } from '../../../src/conformance/check/native-invariants.js';
import { compileSimple } from '../../../src/conformance/check/simple-path.js';
import type { Plan } from '../../../src/conformance/schema/plan.js';
import { Planner } from '../../../src/conformance/schema/planner.js';
import type { Loose } from '../validators.js';
import { published, shipped } from '../validators.js';

// Outside source: the FHIRPath library, over published examples and parts taken out of them.
const require = createRequire(import.meta.url);
const fhirpath = require('fhirpath');
const model = require('fhirpath/fhir-context/r4');

const planner = new Planner(shipped());
const modules = new URL('../../../node_modules/', import.meta.url);

/** The invariants of a plan that the compiler takes on, and how it judges. */
function compared(plan: Plan, base: string, value: Loose, counts: { taken: number }): void {
  for (const { what } of plan.constraints) {
    if (what.expression === undefined || /%|resolve|htmlChecks/.test(what.expression)) continue;
    const simple = compileSimple(what.expression, path => planner.isChoice(plan, path));
    if (!simple) continue;
    counts.taken += 1;
    const found = fhirpath.compile({ base, expression: what.expression }, model)(structuredClone(value), {});
    const expected = found.length === 0 ? undefined : found[0];
    expect(simple(value), `${what.key} ${what.expression} on ${JSON.stringify(value).slice(0, 300)}`).toBe(
      expected,
    );
  }
}

/** Visits a value with its plan as the walk does, and every value with one member left out. */
function visit(value: Loose, plan: Plan, counts: { taken: number }): void {
  const base = plan.kind === 'resource' ? plan.type : plan.base;
  compared(plan, base, value, counts);
  for (const key of Object.keys(value)) {
    if (key === 'resourceType') continue;
    const { [key]: member, ...less } = value;
    compared(plan, base, less, counts);
    const known = plan.members.get(key);
    if (known?.kind !== 'complex') continue;
    for (const item of Array.isArray(member) ? member : [member]) {
      visit(item, planner.itemPlan(known.slot, known.type, []), counts);
    }
  }
}

const folders: readonly (readonly [string, RegExp])[] = [
  ['hl7.fhir.uv.ips/example', /^(?!Bundle)/],
  [
    'hl7.fhir.r4.examples',
    /^(Observation|Condition|Patient|ServiceRequest|CarePlan|Composition|MedicationRequest|Consent|List|Task|Organization)-/,
  ],
];

describe.each(folders)('%s', (folder, names) => {
  const files = readdirSync(new URL(folder, modules)).filter(f => f.endsWith('.json') && names.test(f));
  test('judges as the FHIRPath library does', { timeout: 120_000 }, () => {
    const counts = { taken: 0 };
    for (const file of files) {
      const resource = published(`${folder}/${file}`);
      const claimed = (resource.meta?.profile ?? []).flatMap((p: string) => planner.tree(p)?.root ?? []);
      visit(resource, planner.plan(claimed, resource.resourceType), counts);
    }
    expect(counts.taken).toBeGreaterThan(1000);
  });
});

test('it takes on more than a third of the invariants on R4 resources, and refuses what it does not know', () => {
  let taken = 0;
  let all = 0;
  for (const file of readdirSync(new URL('hl7.fhir.r4.examples/', modules))) {
    if (!/^StructureDefinition-[A-Z][A-Za-z]+\.json$/.test(file)) continue;
    const structure = JSON.parse(readFileSync(new URL(`hl7.fhir.r4.examples/${file}`, modules), 'utf8'));
    const tree = planner.typeTree(structure.type);
    if (!tree || structure.derivation === 'constraint') continue;
    const plan = planner.plan([], structure.type);
    for (const { what } of plan.constraints) {
      if (what.expression === undefined || nativeInvariants.has(what.expression)) continue;
      all += 1;
      if (compileSimple(what.expression, path => planner.isChoice(plan, path))) taken += 1;
    }
  }
  expect(taken / all).toBeGreaterThan(0.35);
  const never = () => false;
  for (const expression of [
    'a.count() > 1',
    'a | b',
    '%resource.a.exists()',
    "a.matches('x')",
    'a',
    "a ~ 'b'",
    'A.b.exists()',
    "'a\\'b' = c",
    'a.exists() and',
    '(a.exists()',
  ]) {
    expect(compileSimple(expression, never), expression).toBeUndefined();
  }
});

// Each function beside the library, where the published invariants or their examples do not reach it.
const quantity = { value: 1, code: 'Gy' };
const observation = {
  resourceType: 'Observation',
  code: { coding: [{ system: 's', code: 'a' }, { code: 'b' }] },
  valueQuantity: quantity,
  component: [{ code: { coding: [{ code: 'b' }] }, valueString: 'x' }, { code: { text: 't' } }],
};
const { valueQuantity, ...bare } = observation;
const observations: readonly Loose[] = [
  observation,
  bare,
  { ...bare, valuePeriod: { start: '2024', end: '2025' } },
  { ...bare, valueString: 'Gy' },
  { ...bare, component: [{ valueString: 'y' }] },
  { resourceType: 'Observation' },
];

test.each([
  'component.all(code.exists())',
  'component.all(code.coding.exists() or value.exists())',
  "component.all(code.coding.where(code = 'b').exists())",
  'component.count() = 2',
  'component.count() != component.code.coding.count()',
  'code.coding.count() = component.count()',
  'code.coding.code.intersect(component.code.coding.code).empty()',
  'code.coding.intersect(component.code.coding).exists()',
  "value.ofType(Quantity).where(code = 'Gy' or code = 'mGy').exists()",
  'value.ofType(Period).end.empty()',
  "value.ofType(string) = 'Gy'",
  "component.value.ofType(string) = 'x'",
  "code.coding.where(code = 'a').exists() implies value.ofType(Quantity).exists()",
])('%s', expression => {
  const plan = planner.plan([], 'Observation');
  const simple = compileSimple(expression, path => planner.isChoice(plan, path));
  const library = fhirpath.compile({ base: 'Observation', expression }, model);
  const answers = observations.map(o => [simple?.(o), library(structuredClone(o), {})[0]]);
  for (const [ours, expected] of answers) expect(ours).toBe(expected);
  expect(new Set(answers.map(([ours]) => ours)).size).toBeGreaterThan(1);
});

test('a type that others derive from, or a filtered choice, is left to the library', () => {
  const extension = planner.plan([], 'Extension');
  const choice = (path: readonly string[]) => planner.isChoice(extension, path);
  expect(compileSimple('value.ofType(Period).exists()', choice)).toBeTypeOf('function');
  expect(compileSimple('value.ofType(Quantity).exists()', choice)).toBeUndefined();
  expect(compileSimple('value.first().ofType(Period).exists()', choice)).toBeUndefined();
  expect(compileSimple('value.ofType(Patient).exists()', choice)).toBeUndefined();
});
