import type { Site } from '../corpus/definitions.js';
import type { Example } from '../corpus/examples.js';
import { at, isObject, type Json, type JsonObject, put, type Step, show } from '../corpus/json.js';

export type Family =
  | 'cardinality'
  | 'type'
  | 'choice'
  | 'primitive'
  | 'date'
  | 'null padding'
  | 'unknown property'
  | 'empty value'
  | 'fixed and pattern'
  | 'slicing'
  | 'extension'
  | 'contained'
  | 'binding'
  | 'display'
  | 'ucum'
  | 'invariant'
  | 'reference'
  | 'bundle'
  | 'narrative'
  | 'json'
  | 'profile';

/** One broken (or deliberately still valid) version of an example; made only when it is chosen. */
export interface Mutation {
  readonly where: string;
  readonly make: () => string;
}

/** One way to break a resource. Operators whose result is still valid keep the other verdict honest. */
export interface Operator {
  readonly id: string;
  readonly family: Family;
  readonly mutations: (example: Example) => Mutation[];
}

export interface Edit {
  readonly root: JsonObject;
  readonly site: Site;
  /** Object that holds the property of the site. */
  readonly holder: JsonObject;
  /** Replaces the value of the site; `undefined` removes it, and its array when it was the last item. */
  readonly set: (value: Json | undefined) => void;
}

/** An operator over single values: `matches` chooses sites, `edit` changes one of them in a copy. */
export function onSites(
  family: Family,
  id: string,
  matches: (site: Site, example: Example) => boolean,
  edit: (edit: Edit) => void,
): Operator {
  return {
    id,
    family,
    mutations: example =>
      example.sites
        .filter(site => matches(site, example))
        .map(site => ({ where: show(site.pointer), make: () => changed(example, site, edit) })),
  };
}

function changed(example: Example, site: Site, edit: (edit: Edit) => void): string {
  const root = structuredClone(example.json);
  const depth = site.index === undefined ? -1 : -2;
  const property = site.index === undefined ? site.pointer : site.pointer.slice(0, -1);
  const holder = at(root, site.pointer.slice(0, depth));
  if (!isObject(holder)) throw new Error(`no holder at ${show(site.pointer)}`);
  const set = (value: Json | undefined) => {
    put(root, site.pointer, value);
    const rest = at(root, property);
    if (value === undefined && Array.isArray(rest) && rest.length === 0) put(root, property, undefined);
  };
  edit({ root, site, holder, set });
  return JSON.stringify(root);
}

/** Replaces the values of some types by a fixed value; addresses in references have rules of their own. */
export function onValues(family: Family, id: string, kinds: readonly string[], value: Json): Operator {
  return onSites(
    family,
    id,
    site => kinds.includes(site.type) && !isObject(site.value) && site.element.path !== 'Reference.reference',
    ({ set }) => set(value),
  );
}

/** An operator over whole resources: the root, contained and bundled ones. `edit` returns false to decline. */
export function onResources(
  family: Family,
  id: string,
  matches: (resource: JsonObject, pointer: readonly Step[], example: Example) => boolean,
  edit: (resource: JsonObject, root: JsonObject) => void,
): Operator {
  return {
    id,
    family,
    mutations: example =>
      resourcePointers(example)
        .filter(pointer => matches(at(example.json, pointer) as JsonObject, pointer, example))
        .map(pointer => ({
          where: show(pointer) || example.type,
          make: () => {
            const root = structuredClone(example.json);
            edit(at(root, pointer) as JsonObject, root);
            return JSON.stringify(root);
          },
        })),
  };
}

function resourcePointers(example: Example): (readonly Step[])[] {
  const inner = example.sites.filter(site => site.type === 'Resource' && isObject(site.value));
  return [[], ...inner.map(site => site.pointer)];
}

/** An operator over the text itself, for what a parsed value cannot hold. */
export function onText(family: Family, id: string, edit: (text: string) => string | undefined): Operator {
  return {
    id,
    family,
    mutations: example => {
      const compact = JSON.stringify(example.json);
      const text = edit(compact);
      return text === undefined || text === compact ? [] : [{ where: example.type, make: () => text }];
    },
  };
}

export const primitives = new Set(
  `base64Binary boolean canonical code date dateTime decimal id instant integer markdown oid positiveInt string time
  unsignedInt uri url uuid`.split(/\s+/),
);

export const isPrimitive = (site: Site) => primitives.has(site.type) && !isObject(site.value);
export const isStructured = (site: Site) => isObject(site.value) && site.type !== 'Resource';
/** True inside the resource itself, not inside something it contains or bundles. */
export const isTopLevel = (site: Site) => site.resource.length === 0;
