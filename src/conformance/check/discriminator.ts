import type { Json, JsonObject } from '../../json/parse.js';
import type { Slicing } from '../definitions/model.js';
import type { Def } from '../schema/definition.js';
import { maxOf, minOf } from '../schema/slot.js';
import type { Step } from './discriminator-path.js';
import { parsePath } from './discriminator-path.js';
import { isObject, matchesPattern, sameJson } from './equal.js';
import type { Place, Scope } from './place.js';
import { resolve } from './resolve.js';
import type { Run } from './run.js';

/** One value of an element, with its type. */
export interface Item {
  readonly value: Json;
  readonly type: string;
  readonly place: Place;
}

/** What a slice asks of the value at a discriminator's path, read off its definitions. */
type Condition = (run: Run, values: readonly Found[], scope: Scope) => boolean | undefined;

interface Found {
  readonly value: Json;
  readonly type: string | undefined;
  readonly scope: Scope;
}

const BASE = 'http://hl7.org/fhir/StructureDefinition/';

const byUrl: Slicing = { discriminator: [{ type: 'value', path: 'url' }], rules: 'open' };
const byType: Slicing = { discriminator: [{ type: 'type', path: '$this' }], rules: 'open' };
const none: Slicing = { rules: 'open' };

/** Decides which slice an item belongs to. Conditions are made once a slice. */
export class Matchers {
  private readonly conditions = new Map<Def, { steps: readonly Step[]; condition: Condition }[]>();

  /** The slicing of an element; extensions and choices have a usual one. */
  slicingOf(sliced: Def): Slicing {
    const own = sliced.element.slicing;
    if (own?.discriminator) return own;
    const usual =
      sliced.name === 'extension' || sliced.name === 'modifierExtension'
        ? byUrl
        : sliced.choice
          ? byType
          : none;
    return own ? { ...usual, ...own } : usual;
  }

  /** True or false where the discriminators decide; undefined where they cannot. */
  matches(run: Run, slice: Def, sliced: Def, item: Item, scope: Scope): boolean | undefined {
    let conditions = this.conditions.get(slice);
    if (!conditions) {
      conditions = this.conditionsOf(run, slice, sliced, item.type);
      this.conditions.set(slice, conditions);
    }
    if (conditions.length === 0) return undefined;
    let verdict: boolean | undefined = true;
    for (const { steps, condition } of conditions) {
      const values = valuesAt([{ value: item.value, type: item.type, scope }], steps);
      const one = condition(run, values, scope);
      if (one === false) return false;
      if (one === undefined) verdict = undefined;
    }
    return verdict;
  }

  private conditionsOf(run: Run, slice: Def, sliced: Def, type: string) {
    return (this.slicingOf(sliced).discriminator ?? []).map(d => {
      const steps = parsePath(d.path);
      return { steps, condition: this.conditionOf(run, d.type, slice, steps, type) };
    });
  }

  private conditionOf(
    run: Run,
    kind: string,
    slice: Def,
    steps: readonly Step[],
    itemType: string,
  ): Condition {
    const type = slice.element.type?.some(t => t.code === itemType)
      ? itemType
      : (slice.element.type?.[0]?.code ?? itemType);
    const ends = defsAt(run, [slice], type, steps);
    switch (kind) {
      case 'value':
      case 'pattern':
        return valueCondition(run, ends, steps, slice);
      case 'type':
        return typeCondition(run, ends);
      case 'profile':
        return profileCondition(ends);
      case 'exists':
        return existsCondition(ends);
      default:
        return () => undefined;
    }
  }
}

/** Values on the instance's side, following the path of the discriminator. */
function valuesAt(start: readonly Found[], steps: readonly Step[]): readonly Found[] {
  let at = start;
  for (const step of steps) at = at.flatMap(found => stepInto(found, step));
  return at;
}

function stepInto({ value, type, scope }: Found, step: Step): readonly Found[] {
  if (step.kind === 'this') return [{ value, type, scope }];
  if (step.kind === 'type') return type === step.name || type === undefined ? [{ value, type, scope }] : [];
  if (!isObject(value)) return [];
  if (step.kind === 'resolve') {
    const reference = value['reference'];
    const target = typeof reference === 'string' ? resolve(reference, scope) : undefined;
    return target
      ? [{ value: target.resource, type: String(target.resource['resourceType']), scope: target.scope }]
      : [];
  }
  if (step.kind === 'extension') {
    const extensions = value['extension'];
    if (!Array.isArray(extensions)) return [];
    return extensions
      .filter(e => isObject(e) && e['url'] === step.name)
      .map(e => ({ value: e as Json, type: 'Extension', scope }));
  }
  return membersOf(value as JsonObject, step.name).map(([child, childType]) => ({
    value: child,
    type: isObject(child) && typeof child['resourceType'] === 'string' ? child['resourceType'] : childType,
    scope,
  }));
}

/** Values of the element `name`, in whatever type a choice element has them. */
function membersOf(value: JsonObject, name: string): readonly (readonly [Json, string | undefined])[] {
  const direct = value[name];
  if (direct !== undefined)
    return (Array.isArray(direct) ? (direct as Json[]) : [direct]).map(v => [v, undefined] as const);
  const key = Object.keys(value).find(k => k.startsWith(name) && /^[A-Z]/.test(k.slice(name.length)));
  const chosen = key === undefined ? undefined : value[key];
  if (key === undefined || chosen === undefined) return [];
  const type = key.slice(name.length);
  return [[chosen, type]];
}

/** Definitions on the slice's side, following the same path. */
function defsAt(run: Run, start: readonly Def[], type: string, steps: readonly Step[]): readonly Def[] {
  let defs = start;
  let types = [type];
  for (const step of steps) {
    if (step.kind === 'this' || step.kind === 'type') continue;
    const expanded = types.flatMap(t => run.planner.expand(defs, t).defs);
    if (step.kind === 'resolve') {
      const profiles = defs.flatMap(d => d.element.type ?? []).flatMap(t => t.targetProfile ?? []);
      defs = profiles.flatMap(p => run.planner.tree(p)?.root ?? []);
      types = defs.map(d => d.structure.type);
      continue;
    }
    const name = step.kind === 'extension' ? 'extension' : step.name;
    let next = [...new Set(expanded)].flatMap(d => d.children.filter(c => c.name === name));
    if (step.kind === 'extension') {
      const slices = next.flatMap(d => d.slices).filter(s => extensionUrl(s) === step.name);
      const root = run.planner.tree(step.name)?.root;
      next = root ? [...slices, root] : slices;
    }
    defs = next;
    types = [...new Set(defs.flatMap(d => (d.element.type ?? []).map(t => t.code)))];
    if (step.kind === 'extension') types = ['Extension'];
  }
  return defs;
}

/** The address of the extension that a slice of `extension` stands for. */
function extensionUrl(slice: Def): string | undefined {
  return slice.element.type?.[0]?.profile?.[0]?.replace(/\|.*$/, '');
}

function valueCondition(run: Run, ends: readonly Def[], steps: readonly Step[], slice: Def): Condition {
  const tests = ends.map(d => testOf(run, d, 0)).filter(t => t !== undefined);
  const [last] = steps.slice(-1);
  // A profile on an extension that is not loaded still names its address.
  if (tests.length === 0 && last?.kind === 'child' && last.name === 'url') {
    const url = extensionUrl(slice);
    if (url !== undefined) return (_run, values) => values.some(v => v.value === url);
  }
  if (tests.length === 0) return () => undefined;
  return (asked, values) => values.some(v => tests.every(test => test(asked, v.value)));
}

type Test = (run: Run, value: Json) => boolean;

/** What a definition asks of a value: fixed, pattern, what its children ask, or its required value set. */
function testOf(run: Run, def: Def, depth: number): Test | undefined {
  const { fixed, pattern, binding } = def.element;
  if (fixed) return (_run, value) => sameJson(value, fixed.value);
  if (pattern) return (_run, value) => matchesPattern(value, pattern.value);
  const parts = depth > 4 ? [] : [...def.children, ...def.children.flatMap(c => c.slices)];
  const inner = parts.flatMap(child => {
    if (child.element.sliceName !== undefined && minOf(child) === 0) return [];
    const test = testOf(run, child, depth + 1);
    return test ? [{ name: child.name, test, needed: minOf(child) > 0 }] : [];
  });
  if (inner.length > 0) {
    return (asked, value) =>
      isObject(value) &&
      inner.every(({ name, test, needed }) => {
        const children = membersOf(value as JsonObject, name);
        return (!needed && children.length === 0) || children.some(([child]) => test(asked, child));
      });
  }
  if (binding?.strength === 'required' && binding.valueSet !== undefined) {
    const { valueSet } = binding;
    return (asked, value) => inValueSet(asked, valueSet, value);
  }
  return undefined;
}

function inValueSet(run: Run, valueSet: string, value: Json): boolean {
  if (typeof value === 'string') return run.terminology.test(valueSet, undefined, value).is === 'in';
  if (!isObject(value)) return false;
  const codings = Array.isArray(value['coding'])
    ? (value['coding'] as readonly Json[])
    : [value as JsonObject];
  return codings.some(c => {
    if (!isObject(c) || typeof c['code'] !== 'string') return false;
    const system = typeof c['system'] === 'string' ? c['system'] : '';
    return run.terminology.test(valueSet, system, c['code']).is === 'in';
  });
}

function typeCondition(run: Run, ends: readonly Def[]): Condition {
  const types = new Set<string>();
  for (const def of ends) {
    if (!def.element.path.includes('.')) types.add(def.structure.type);
    for (const t of def.element.type ?? []) {
      const named = (t.profile ?? []).map(p => run.planner.definitions.structure(p, true)?.type);
      const abstract = t.code === 'Resource' || t.code === 'DomainResource';
      for (const name of abstract && named.length > 0 ? named : [t.code])
        if (name !== undefined) types.add(name);
    }
  }
  if (types.size === 0) return () => undefined;
  return (asked, values) =>
    values.some(({ value, type }) => {
      const actual =
        isObject(value) && typeof value['resourceType'] === 'string' ? value['resourceType'] : type;
      if (actual === undefined) return false;
      return (
        types.has(actual) || lower(types, actual) || asked.planner.ancestry(actual).some(t => types.has(t))
      );
    });
}

/** Choice members name primitive types with a capital letter: `valueString`. */
function lower(types: ReadonlySet<string>, actual: string): boolean {
  return types.has(actual.charAt(0).toLowerCase() + actual.slice(1));
}

function existsCondition(ends: readonly Def[]): Condition {
  if (ends.some(d => maxOf(d) === 0)) return (_run, values) => values.length === 0;
  if (ends.some(d => minOf(d) > 0)) return (_run, values) => values.length > 0;
  return () => undefined;
}

function profileCondition(ends: readonly Def[]): Condition {
  const profiles = ends
    .flatMap(d => d.element.type ?? [])
    .flatMap(t => (t.code === 'Reference' ? t.targetProfile : t.profile) ?? [BASE + t.code]);
  const own = ends.filter(d => !d.element.path.includes('.')).map(d => d.structure.url);
  const wanted = profiles.length > 0 ? profiles : own;
  if (wanted.length === 0) return () => undefined;
  return (run, values) =>
    values.some(({ value, scope }) => {
      if (!isObject(value)) return false;
      const target = { resource: value as JsonObject, scope, how: 'bundled' as const };
      return wanted.some(profile => run.trial(target, profile).conforms);
    });
}
