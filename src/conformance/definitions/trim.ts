import type {
  Binding,
  CodeSystem,
  Concept,
  Constraint,
  Element,
  ElementType,
  Include,
  Slicing,
  Structure,
  TypedValue,
  ValueSet,
} from './model.js';

type Raw = Readonly<Record<string, unknown>>;

const FHIR_TYPE = 'http://hl7.org/fhir/StructureDefinition/structuredefinition-fhir-type';
const MAX_VALUE_SET = 'http://hl7.org/fhir/StructureDefinition/elementdefinition-maxValueSet';
const SYSTEM_TYPE = 'http://hl7.org/fhirpath/System.';

/** Keeps of a StructureDefinition what the engine reads. */
export function trimStructure(raw: Raw): Structure {
  const isResource = raw['kind'] === 'resource';
  const snapshot = elements(raw['snapshot'], isResource);
  const context = list(raw['context'])
    .map(c => ({ type: text(c['type']) ?? '', expression: text(c['expression']) ?? '' }))
    .filter(c => c.expression !== '');
  return defined<Structure>({
    url: text(raw['url']) ?? '',
    version: text(raw['version']),
    name: text(raw['name']),
    type: text(raw['type']) ?? '',
    kind: raw['kind'] as Structure['kind'],
    abstract: raw['abstract'] === true,
    derivation: raw['derivation'] as Structure['derivation'],
    baseDefinition: text(raw['baseDefinition']),
    context: context.length > 0 ? context : undefined,
    contextInvariant: texts(raw['contextInvariant']),
    snapshot,
    differential: snapshot.length > 0 ? undefined : elements(raw['differential'], isResource),
  });
}

/** Keeps of a ValueSet its content definition, and its expansion only where there is no definition. */
export function trimValueSet(raw: Raw): ValueSet {
  const compose = (raw['compose'] ?? {}) as Raw;
  const include = list(compose['include']).map(trimInclude);
  const exclude = list(compose['exclude']).map(trimInclude);
  return defined<ValueSet>({
    url: text(raw['url']) ?? '',
    version: text(raw['version']),
    include,
    exclude: exclude.length > 0 ? exclude : undefined,
    expansion: include.length > 0 ? undefined : expansion(raw['expansion']),
  });
}

/** Keeps of a CodeSystem its codes, displays, hierarchy and the properties that filters may ask for. */
export function trimCodeSystem(raw: Raw): CodeSystem {
  const concept: Concept[] = [];
  const add = (rows: readonly Raw[], parent?: string) => {
    for (const row of rows) {
      const code = text(row['code']);
      if (code === undefined) continue;
      concept.push(trimConcept(row, code, parent));
      add(list(row['concept']), code);
    }
  };
  add(list(raw['concept']));
  return defined<CodeSystem>({
    url: text(raw['url']) ?? '',
    version: text(raw['version']),
    content: raw['content'] as CodeSystem['content'],
    caseSensitive: raw['caseSensitive'] === false ? false : undefined,
    concept,
  });
}

/** Properties that describe the entry rather than the concept; no filter asks for them. */
const editorial = /^(internalId|HL7usageNotes|openIssue|deprecationDate|synonymCode)$/;

function trimConcept(row: Raw, code: string, parent: string | undefined): Concept {
  const parents = new Set(parent === undefined ? [] : [parent]);
  const property: Record<string, string> = {};
  for (const p of list(row['property'])) {
    const name = text(p['code']) ?? '';
    const value = Object.entries(p).find(([key]) => key.startsWith('value'))?.[1];
    if (name === 'subsumedBy' || name === 'parent') parents.add(String(value));
    else if (!editorial.test(name) && typeof value !== 'object') property[name] = String(value);
  }
  if (property['status'] === 'active') delete property['status'];
  const also = list(row['designation']).map(d => text(d['value']) ?? '');
  return defined<Concept>({
    code,
    display: text(row['display']),
    also: also.length > 0 ? also : undefined,
    parent: parents.size > 0 ? [...parents] : undefined,
    property: Object.keys(property).length > 0 ? property : undefined,
  });
}

function trimInclude(raw: Raw): Include {
  const concept = list(raw['concept']).map(c =>
    defined<{ code: string; display?: string }>({ code: text(c['code']) ?? '', display: text(c['display']) }),
  );
  const filter = list(raw['filter']).map(f => ({
    property: text(f['property']) ?? '',
    op: text(f['op']) ?? '',
    value: text(f['value']) ?? '',
  }));
  return defined<Include>({
    system: text(raw['system']),
    version: text(raw['version']),
    concept: concept.length > 0 ? concept : undefined,
    filter: filter.length > 0 ? filter : undefined,
    valueSet: texts(raw['valueSet']),
  });
}

/** A complete expansion as enumerated includes, one a code system; nothing for a paged or cut one. */
function expansion(raw: unknown): Include[] | undefined {
  const found = (raw ?? {}) as Raw;
  const bySystem = new Map<string, { code: string; display?: string }[]>();
  let count = 0;
  const add = (rows: readonly Raw[]) => {
    for (const row of rows) {
      const code = text(row['code']);
      const system = text(row['system']) ?? '';
      if (code !== undefined && row['abstract'] !== true) {
        const codes = bySystem.get(system) ?? [];
        bySystem.set(system, codes);
        codes.push(defined<{ code: string; display?: string }>({ code, display: text(row['display']) }));
        count += 1;
      }
      add(list(row['contains']));
    }
  };
  add(list(found['contains']));
  const total = found['total'];
  if (count === 0 || (typeof total === 'number' && total > count)) return undefined;
  return [...bySystem].map(([system, concept]) => ({ system, concept }));
}

function elements(raw: unknown, isResource: boolean): Element[] {
  return list((raw as Raw | undefined)?.['element']).map(e => trimElement(e, isResource));
}

function trimElement(raw: Raw, isResource: boolean): Element {
  const path = text(raw['path']) ?? '';
  const sliceName = text(raw['sliceName']);
  const constraint = list(raw['constraint']).map(trimConstraint);
  const type = list(raw['type']).map(t => trimType(t, path, isResource));
  return defined<Element>({
    id: text(raw['id']) ?? (sliceName === undefined ? path : `${path}:${sliceName}`),
    path,
    sliceName,
    min: raw['min'] as number | undefined,
    max: text(raw['max']),
    type: type.length > 0 ? type : undefined,
    contentReference: text(raw['contentReference']),
    fixed: typed(raw, 'fixed'),
    pattern: typed(raw, 'pattern'),
    minValue: typed(raw, 'minValue'),
    maxValue: typed(raw, 'maxValue'),
    maxLength: raw['maxLength'] as number | undefined,
    constraint: constraint.length > 0 ? constraint : undefined,
    binding: trimBinding(raw['binding'] as Raw | undefined),
    slicing: trimSlicing(raw['slicing'] as Raw | undefined),
    isModifier: raw['isModifier'] === true ? true : undefined,
  });
}

/** Types of the FHIRPath system namespace carry their FHIR type in an extension. */
function trimType(raw: Raw, path: string, isResource: boolean): ElementType {
  let code = text(raw['code']) ?? '';
  if (code.startsWith(SYSTEM_TYPE)) {
    const named = list(raw['extension']).find(e => e['url'] === FHIR_TYPE);
    const said = text(named?.['valueUrl']) ?? text(named?.['valueUri']);
    // R4's structures say string for the id of a resource, its datatypes page says id.
    const resourceId = isResource && /^[A-Za-z]+\.id$/.test(path);
    code = resourceId ? 'id' : (said ?? systemType(code, path));
  }
  return defined<ElementType>({
    code,
    profile: texts(raw['profile']),
    targetProfile: texts(raw['targetProfile']),
    aggregation: texts(raw['aggregation']),
  });
}

function systemType(code: string, path: string): string {
  const name = code.slice(SYSTEM_TYPE.length);
  return path.endsWith('.url') ? 'uri' : name.charAt(0).toLowerCase() + name.slice(1);
}

function trimConstraint(raw: Raw): Constraint {
  return defined<Constraint>({
    key: text(raw['key']) ?? '',
    severity: raw['severity'] === 'warning' ? 'warning' : 'error',
    human: text(raw['human']) ?? '',
    expression: text(raw['expression']),
    source: text(raw['source']),
  });
}

function trimBinding(raw: Raw | undefined): Binding | undefined {
  if (!raw) return undefined;
  const max = list(raw['extension']).find(e => e['url'] === MAX_VALUE_SET);
  return defined<Binding>({
    strength: raw['strength'] as Binding['strength'],
    valueSet: text(raw['valueSet']),
    maxValueSet: text(max?.['valueCanonical']) ?? text(max?.['valueUri']),
  });
}

function trimSlicing(raw: Raw | undefined): Slicing | undefined {
  if (!raw) return undefined;
  const discriminator = list(raw['discriminator']).map(d => ({
    type: text(d['type']) ?? '',
    path: text(d['path']) ?? '',
  }));
  return defined<Slicing>({
    discriminator: discriminator.length > 0 ? discriminator : undefined,
    ordered: raw['ordered'] === true ? true : undefined,
    rules: (raw['rules'] as Slicing['rules'] | undefined) ?? 'open',
  });
}

function typed(raw: Raw, prefix: string): TypedValue | undefined {
  for (const key in raw) {
    if (key.length > prefix.length && key.startsWith(prefix)) {
      const name = key.slice(prefix.length);
      if (/^[A-Z]/.test(name)) return { type: name, value: raw[key] };
    }
  }
  return undefined;
}

function list(raw: unknown): readonly Raw[] {
  return Array.isArray(raw) ? raw : [];
}

function text(raw: unknown): string | undefined {
  return typeof raw === 'string' ? raw : undefined;
}

function texts(raw: unknown): readonly string[] | undefined {
  return Array.isArray(raw) && raw.length > 0 ? raw.map(String) : undefined;
}

/** Leaves out members without a value, so that compiled definitions stay small. */
function defined<T extends object>(members: { [K in keyof T]: T[K] | undefined }): T {
  for (const key in members) if (members[key] === undefined) delete members[key];
  return members as T;
}
