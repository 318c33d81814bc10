import { existsSync, readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { isObject, itemsAt, type Json, type JsonObject, type Step, textAt } from './json.js';

/** What the mutation operators need to know of one element; read from published snapshots. */
export interface Element {
  readonly path: string;
  readonly name: string;
  readonly min: number;
  readonly max: string;
  readonly types: readonly string[];
  readonly targets: readonly string[];
  readonly binding?: { readonly strength: string; readonly valueSet: string };
  readonly contentReference?: string;
  readonly raw: JsonObject;
}

/** One value in a resource, with the definition that governs it. */
export interface Site {
  readonly pointer: readonly Step[];
  /** JSON property name (`valueQuantity`), even when the value is an array item. */
  readonly key: string;
  readonly type: string;
  readonly element: Element;
  readonly value: Json;
  /** Position in the array, when the property is one. */
  readonly index?: number;
  /** Resource type or data type whose definition names the element. */
  readonly owner: string;
  /** Element path from the enclosing resource down, as its profiles write it: `Observation.code.coding.system`. */
  readonly path: string;
  /** Pointer of the nearest enclosing resource. */
  readonly resource: readonly Step[];
}

export const modules = join(import.meta.dirname, '../../../node_modules');
const base = join(modules, 'hl7.fhir.r4.examples');
const profileFolders = [join(modules, 'hl7.fhir.uv.ips'), base];

type Children = ReadonlyMap<string, Element>;
const trees = new Map<string, Map<string, Map<string, Element>>>();

function definition(file: string): JsonObject | undefined {
  return existsSync(file) ? (JSON.parse(readFileSync(file, 'utf8')) as JsonObject) : undefined;
}

function elementsOf(structure: JsonObject | undefined): JsonObject[] {
  return itemsAt(structure?.['snapshot'], 'element').filter(isObject);
}

function element(raw: JsonObject): Element {
  const path = textAt(raw, 'path') ?? '';
  const types = itemsAt(raw, 'type').filter(isObject);
  const strength = textAt(raw['binding'], 'strength');
  const valueSet = textAt(raw['binding'], 'valueSet');
  const contentReference = textAt(raw, 'contentReference');
  return {
    path,
    name: path.slice(path.lastIndexOf('.') + 1),
    min: Number(raw['min'] ?? 0),
    max: textAt(raw, 'max') ?? '*',
    types: types.map(t => typeName(path, textAt(t, 'code') ?? '')),
    targets: types.flatMap(t => itemsAt(t, 'targetProfile')).map(url => String(url).split('/').at(-1) ?? ''),
    raw,
    ...(strength !== undefined && valueSet !== undefined && { binding: { strength, valueSet } }),
    ...(contentReference !== undefined && { contentReference: contentReference.slice(1) }),
  };
}

/** The published snapshots type ids and extension addresses as FHIRPath strings; their text is narrower. */
function typeName(path: string, code: string): string {
  if (!code.startsWith('http://hl7.org/fhirpath/System.')) return code;
  if (path === 'Extension.url') return 'uri';
  return path.endsWith('.id') ? 'id' : code.slice(31).toLowerCase();
}

/** Children of `path` inside the snapshot of a base type, by element name. */
function childrenOf(type: string, path: string): Children | undefined {
  let tree = trees.get(type);
  if (!tree) {
    tree = new Map();
    for (const raw of elementsOf(definition(join(base, `StructureDefinition-${type}.json`)))) {
      const e = element(raw);
      const parent = e.path.slice(0, Math.max(0, e.path.lastIndexOf('.')));
      const siblings = tree.get(parent) ?? new Map<string, Element>();
      siblings.set(e.name, e);
      tree.set(parent, siblings);
    }
    trees.set(type, tree);
  }
  return tree.get(path);
}

export function isBaseType(type: string): boolean {
  return /^[A-Za-z]+$/.test(type) && existsSync(join(base, `StructureDefinition-${type}.json`));
}

/** All elements of a base resource or data type, one level below `path` (default: its root). */
export function elements(type: string, path = type): readonly Element[] {
  return [...(childrenOf(type, path)?.values() ?? [])];
}

const capital = (text: string) => text.charAt(0).toUpperCase() + text.slice(1);

function lookUp(children: Children | undefined, key: string): { e: Element; type: string } | undefined {
  const plain = children?.get(key);
  if (plain) return { e: plain, type: plain.types[0] ?? '' };
  for (const e of children?.values() ?? []) {
    if (!e.name.endsWith('[x]') || !key.startsWith(e.name.slice(0, -3))) continue;
    const type = e.types.find(t => capital(t) === key.slice(e.name.length - 3));
    if (type) return { e, type };
  }
  return undefined;
}

/** Every value of a resource that a base definition describes, parents before children. */
export function sitesOf(resource: JsonObject): Site[] {
  const sites: Site[] = [];
  walkResource(resource, [], sites);
  return sites;
}

function walkResource(resource: JsonObject, pointer: readonly Step[], sites: Site[]): void {
  const type = textAt(resource, 'resourceType');
  if (type !== undefined && isBaseType(type)) walk(resource, type, type, type, pointer, pointer, sites);
}

function walk(
  holder: JsonObject,
  owner: string,
  path: string,
  full: string,
  pointer: readonly Step[],
  resource: readonly Step[],
  sites: Site[],
): void {
  const children = childrenOf(owner, path);
  for (const [key, value] of Object.entries(holder)) {
    const found = lookUp(children, key);
    if (!found) continue;
    const values = Array.isArray(value) ? value : [value];
    values.forEach((item, index) => {
      const here = Array.isArray(value) ? [...pointer, key, index] : [...pointer, key];
      const { e, type } = found;
      const below = `${full}.${e.name}`;
      sites.push({
        pointer: here,
        key,
        type,
        element: e,
        value: item,
        owner,
        path: below,
        resource,
        ...(Array.isArray(value) && { index }),
      });
      if (!isObject(item)) return;
      if (e.contentReference) walk(item, owner, e.contentReference, below, here, resource, sites);
      else if (type === 'Resource') walkResource(item, here, sites);
      else if (type === 'BackboneElement' || type === 'Element')
        walk(item, owner, e.path, below, here, resource, sites);
      else walk(item, type, type, below, here, resource, sites);
    });
  }
}

const profiles = new Map<string, readonly JsonObject[]>();
let profileFiles: Map<string, string> | undefined;

/** Snapshot elements of a published profile, or none when no package here has it. */
export function profileElements(url: string): readonly JsonObject[] {
  profileFiles ??= indexProfiles();
  const bare = url.split('|')[0] ?? url;
  let found = profiles.get(bare);
  if (!found) {
    const file = profileFiles.get(bare);
    found = file === undefined ? [] : elementsOf(definition(file));
    profiles.set(bare, found);
  }
  return found;
}

/** Every published profile on a resource type. */
export function publishedProfiles(): { url: string; type: string; file: string }[] {
  profileFiles ??= indexProfiles();
  const found: { url: string; type: string; file: string }[] = [];
  for (const [url, file] of profileFiles) {
    const structure = definition(file);
    const type = textAt(structure, 'type');
    if (
      textAt(structure, 'kind') === 'resource' &&
      textAt(structure, 'derivation') === 'constraint' &&
      type
    ) {
      found.push({ url, type, file });
    }
  }
  return found;
}

function indexProfiles(): Map<string, string> {
  const files = new Map<string, string>();
  for (const folder of profileFolders) {
    for (const name of readdirSync(folder).sort()) {
      if (!name.startsWith('StructureDefinition-')) continue;
      const structure = definition(join(folder, name));
      const url = textAt(structure, 'url');
      if (
        url &&
        textAt(structure, 'derivation') === 'constraint' &&
        textAt(structure, 'type') !== 'Extension'
      ) {
        if (!files.has(url)) files.set(url, join(folder, name));
      }
    }
  }
  return files;
}
