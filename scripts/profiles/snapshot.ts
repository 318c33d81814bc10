import { readdirSync } from 'node:fs';
import type { Shelf, StructureEntry } from '../../src/conformance/definitions/definitions.js';
import { Definitions } from '../../src/conformance/definitions/definitions.js';
import type { Element, Structure } from '../../src/conformance/definitions/model.js';
import { withSnapshot } from '../../src/conformance/definitions/snapshot.js';
import type { RawElement, RawProfile } from './source.js';
import { readJson, root } from './source.js';

/** Where the structures lie that our profiles stand on. */
const bases = {
  'hl7.fhir.r4.examples': 'http://hl7.org/fhir/StructureDefinition/',
  'hl7.fhir.uv.ips': 'http://hl7.org/fhir/uv/ips/StructureDefinition/',
};

/**
 * Whole snapshots by address of the profile, with texts and bases. The generator of the validator makes them: it copies
 * the parts of an element that it does not know.
 */
export function snapshots(profiles: readonly RawProfile[]): Map<string, readonly RawElement[]> {
  const definitions = new Definitions([shelfOf(profiles)]);
  const made = new Map<string, readonly RawElement[]>();
  for (const { url, baseDefinition } of profiles) {
    const plain = definitions.structure(url);
    const full =
      plain && withSnapshot({ ...plain, differential: walkedInto(plain, definitions) }, definitions);
    if (!full) throw new Error(`${url}: its base ${baseDefinition} is in no package`);
    const elements: readonly RawElement[] = JSON.parse(JSON.stringify(full.snapshot));
    made.set(
      url,
      elements.map(element => finished(element, url)),
    );
  }
  return made;
}

/** Where a differential goes into an element, a snapshot lists all its children and not only those that are changed. */
function walkedInto(profile: Structure, definitions: Definitions): Element[] {
  const base = definitions.structure(profile.baseDefinition ?? '', true);
  const known = new Map((base?.snapshot ?? []).map(element => [element.id, element]));
  const out: Element[] = [];
  const add = (element: Element) => {
    const parent = element.id.slice(0, Math.max(0, element.id.lastIndexOf('.')));
    const unsliced = parent.replace(/:[^.:]+$/, '');
    if (parent !== '' && !known.has(parent)) add({ id: parent, path: pathOf(parent) });
    if (parent !== '' && ![...known.keys()].some(id => id.startsWith(`${parent}.`)))
      for (const name of childrenOf(unsliced, known, definitions)) {
        const child = { id: `${parent}.${name}`, path: pathOf(`${parent}.${name}`) };
        known.set(child.id, { ...child, type: known.get(`${unsliced}.${name}`)?.type ?? [] });
        out.push(child);
      }
    const plain = known.get(element.id) ?? known.get(element.id.replace(/:[^.:]+$/, ''));
    known.set(element.id, { ...plain, ...element });
    out.push(element);
  };
  for (const element of profile.differential ?? []) add(element);
  return out;
}

function childrenOf(parent: string, known: ReadonlyMap<string, Element>, definitions: Definitions): string[] {
  const direct = (ids: Iterable<string>, of: string) =>
    [...ids].filter(id => id.startsWith(`${of}.`)).map(id => id.slice(of.length + 1));
  const here = direct(known.keys(), parent).filter(name => /^[^.:]+$/.test(name));
  if (here.length > 0) return here;
  const type = known.get(parent)?.type?.[0];
  const structure =
    definitions.structure(type?.profile?.[0] ?? '', true) ?? (type && definitions.type(type.code));
  if (!structure) return [];
  return direct(
    structure.snapshot.map(({ id }) => id),
    structure.type,
  ).filter(name => /^[^.:]+$/.test(name));
}

const pathOf = (id: string) => id.replace(/:[^.]*/g, '');

const REGEX = 'http://hl7.org/fhir/StructureDefinition/regex';

/** Rules of ours say that they are ours; an extension that some published types carry where R4 does not allow it goes. */
function finished(element: RawElement, url: string): RawElement {
  const constraint = element.constraint?.map(rule => ('source' in rule ? rule : { ...rule, source: url }));
  const type = element.type?.map(({ extension, ...rest }) => {
    const allowed = extension?.filter(one => one.url !== REGEX) ?? [];
    return { ...(allowed.length > 0 && { extension: allowed }), ...rest };
  });
  return { ...element, ...(type && { type }), ...(constraint && { constraint }) };
}

function shelfOf(profiles: readonly RawProfile[]): Shelf {
  const loaded = new Map<string, Structure>(profiles.map(profile => [profile.url, structureOf(profile)]));
  const files = new Map<string, URL>();
  for (const [name, prefix] of Object.entries(bases)) {
    const folder = new URL(`node_modules/${name}/`, root);
    for (const file of readdirSync(folder)) {
      const id = /^StructureDefinition-(.+)\.json$/.exec(file)?.[1];
      if (id !== undefined) files.set(prefix + id, new URL(file, folder));
    }
  }
  const load = (url: string): Structure => {
    const file = files.get(url);
    const structure = loaded.get(url) ?? (file && structureOf(readJson<RawStructure>(file)));
    if (!structure) throw new Error(`${url} is in no package`);
    loaded.set(url, structure);
    return structure;
  };
  return {
    sources: [],
    structures: [...loaded.keys(), ...files.keys()].map(
      (url): StructureEntry => ({ url, version: '', type: '', get: () => load(url) }),
    ),
    valueSets: [],
    codeSystems: [],
  };
}

type RawStructure = Omit<Structure, 'snapshot' | 'differential'> & {
  readonly snapshot?: { readonly element: readonly Element[] };
  readonly differential?: { readonly element: readonly Element[] };
};

function structureOf(raw: RawStructure | RawProfile): Structure {
  const { url, type, baseDefinition, snapshot, differential }: RawStructure = JSON.parse(JSON.stringify(raw));
  return {
    url,
    type,
    kind: 'resource',
    abstract: false,
    ...(baseDefinition !== undefined && { baseDefinition }),
    snapshot: snapshot?.element ?? [],
    ...(differential && { differential: differential.element }),
  };
}
