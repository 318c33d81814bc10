import { profileElements, type Site } from '../corpus/definitions.js';
import type { Example } from '../corpus/examples.js';
import { isObject, itemsAt, type Json, type JsonObject, textAt } from '../corpus/json.js';
import { isTopLevel, type Operator, onSites } from './operator.js';

interface Constraint {
  readonly path: string;
  readonly value: Json;
}

/** Fixed and pattern values that the claimed profiles demand, with the base path they apply to. */
function constraints(example: Example, kind: 'fixed' | 'pattern'): Constraint[] {
  return example.profiles
    .flatMap(url => profileElements(url))
    .flatMap(e => {
      const key = Object.keys(e).find(k => k.startsWith(kind));
      const value = key === undefined ? undefined : e[key];
      return value === undefined ? [] : [{ path: String(e['path']), value }];
    });
}

/** Slicing heads of the claimed profiles: base path to discriminator paths. */
function slicings(example: Example): Map<string, readonly string[]> {
  const found = new Map<string, readonly string[]>();
  for (const e of example.profiles.flatMap(url => profileElements(url))) {
    if (!isObject(e['slicing'])) continue;
    const path = String(e['path']);
    if (path.endsWith('.extension') || path.endsWith('.modifierExtension') || path.endsWith('[x]')) continue;
    found.set(
      path,
      itemsAt(e['slicing'], 'discriminator').map(d => textAt(d, 'path') ?? '$this'),
    );
  }
  return found;
}

const constrained = (kind: 'fixed' | 'pattern') => (s: Site, example: Example) =>
  constraints(example, kind).some(c => c.path === s.path && contains(s.value, c.value));

function contains(value: Json, part: Json): boolean {
  if (isObject(part))
    return isObject(value) && Object.entries(part).every(([k, v]) => contains(value[k] ?? null, v));
  if (Array.isArray(part)) return Array.isArray(value) && part.every(p => value.some(v => contains(v, p)));
  return value === part;
}

const altered = (value: Json): Json => {
  if (!isObject(value)) return typeof value === 'string' ? `${value}x` : value;
  const codings = itemsAt(value, 'coding').filter(isObject);
  if (codings.length > 0) return { ...value, coding: codings.map(c => ({ ...c, code: '99999-9' })) };
  const key = Object.keys(value).find(k => typeof value[k] === 'string');
  return key === undefined ? value : { ...value, [key]: `${String(value[key])}x` };
};

export const fixedAndPattern: Operator[] = [
  onSites('fixed and pattern', 'fixed-altered', constrained('fixed'), ({ set, site }) =>
    set(altered(site.value)),
  ),
  onSites('fixed and pattern', 'pattern-altered', constrained('pattern'), ({ set, site }) =>
    set(altered(site.value)),
  ),
  onSites('fixed and pattern', 'pattern-removed', constrained('pattern'), ({ set }) => set(undefined)),
  onSites(
    'fixed and pattern',
    'pattern-text-only',
    (s, ex) => constrained('pattern')(s, ex) && s.type === 'CodeableConcept',
    ({ set }) => set({ text: 'text' }),
  ),
  onSites(
    'fixed and pattern',
    'pattern-second-coding-valid',
    (s, ex) => constrained('pattern')(s, ex) && s.type === 'CodeableConcept',
    ({ set, site }) => {
      const concept = site.value as JsonObject;
      set({
        ...concept,
        coding: [...itemsAt(concept, 'coding'), { system: 'http://example.org/codes', code: 'a' }],
      });
    },
  ),
  onSites(
    'fixed and pattern',
    'pattern-coding-order-valid',
    (s, ex) => constrained('pattern')(s, ex) && s.type === 'CodeableConcept',
    ({ set, site }) => {
      const concept = site.value as JsonObject;
      set({
        ...concept,
        coding: [{ system: 'http://example.org/codes', code: 'a' }, ...itemsAt(concept, 'coding')],
      });
    },
  ),
  onSites(
    'fixed and pattern',
    'pattern-system-removed',
    (s, ex) => constrained('pattern')(s, ex) && s.type === 'CodeableConcept',
    ({ set, site }) => {
      const concept = site.value as JsonObject;
      set({
        ...concept,
        coding: itemsAt(concept, 'coding')
          .filter(isObject)
          .map(({ system: _, ...rest }) => rest),
      });
    },
  ),
];

const isSliced = (s: Site, example: Example) => slicings(example).has(s.path) && s.index !== undefined;

function alterAlong(value: Json, steps: readonly string[]): boolean {
  const [step, ...rest] = steps;
  if (step === undefined || !isObject(value)) return false;
  const child = value[step];
  if (child === undefined) return false;
  if (rest.length === 0) {
    value[step] = Array.isArray(child) ? child.map(altered) : altered(child);
    return true;
  }
  return (Array.isArray(child) ? child : [child]).map(c => alterAlong(c, rest)).some(Boolean);
}

const plainDiscriminators = (example: Example, path: string) =>
  (slicings(example).get(path) ?? []).filter(d => d !== '$this' && !/[()]/.test(d)).map(d => d.split('.'));

export const slicing: Operator[] = [
  onSites('slicing', 'slice-removed', isSliced, ({ set }) => set(undefined)),
  onSites('slicing', 'slice-doubled', isSliced, ({ holder, site }) => {
    holder[site.key] = [...itemsAt(holder, site.key), structuredClone(site.value)];
  }),
  onSites(
    'slicing',
    'slices-reversed',
    (s, ex) => isSliced(s, ex) && s.index === 1,
    ({ holder, site }) => {
      holder[site.key] = itemsAt(holder, site.key).reverse();
    },
  ),
  {
    id: 'discriminator-altered',
    family: 'slicing',
    mutations: example => alterations(example).mutations(example),
  },
  onSites(
    'slicing',
    'slice-emptied-to-text',
    (s, ex) => isSliced(s, ex) && isObject(s.value),
    ({ set }) => set({ id: 'emptied' }),
  ),
  onSites(
    'slicing',
    'unmatched-item-added',
    (s, ex) => isSliced(s, ex) && s.index === 0 && isTopLevel(s) && isObject(s.value),
    ({ holder, site }) => {
      const copy = structuredClone(site.value) as JsonObject;
      for (const key of ['code', 'type', 'coding']) if (key in copy) copy[key] = altered(copy[key] ?? null);
      holder[site.key] = [...itemsAt(holder, site.key), copy];
    },
  ),
  onSites(
    'slicing',
    'all-slices-removed',
    (s, ex) => isSliced(s, ex) && s.index === 0,
    ({ holder, site }) => {
      delete holder[site.key];
    },
  ),
  onSites(
    'slicing',
    'section-entry-of-other-type',
    s => s.element.path === 'Composition.section.entry',
    ({ set }) => set({ reference: 'Location/other' }),
  ),
];

function alterations(example: Example): Operator {
  return onSites(
    'slicing',
    'discriminator-altered',
    s =>
      isSliced(s, example) &&
      plainDiscriminators(example, s.path).some(steps => alterAlong(structuredClone(s.value), steps)),
    ({ set, site }) => {
      const copy = structuredClone(site.value);
      for (const steps of plainDiscriminators(example, site.path)) alterAlong(copy, steps);
      set(copy);
    },
  );
}
