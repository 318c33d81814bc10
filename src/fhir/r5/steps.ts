/** An object of FHIR JSON whose shape depends on the version. */
export type Fields = Readonly<Record<string, unknown>>;

/** What one R4 element becomes: elements of R5, and what R5 has no place for. */
export interface Part {
  readonly set?: Fields;
  /** What is lost, in a few words; nothing about the patient. */
  readonly lost?: string;
}

/**
 * How one R4 element is written in R5. `'same'`: under its name. `{ to }`: under another name. `{ lost }`: not at
 * all, for the stated reason. A function: anything else. Names of choices end in `[x]` and stand for every type.
 */
export type Step =
  | 'same'
  | { readonly to: string }
  | { readonly lost: string }
  | ((value: unknown, whole: Fields) => Part);

/** The R5 form of one R4 resource type: every element of R4 is named, so that none goes unseen. */
export interface TypeTable {
  readonly type: string;
  readonly elements: Readonly<Record<string, Step>>;
}

/** What building has come to. */
export interface Built {
  readonly resource: Fields;
  /** `Type.element: why`, in R4 names. */
  readonly losses: readonly string[];
  /** Elements that the table does not know. */
  readonly unknown: readonly string[];
}

/** Elements that every resource has. Profile claims are about R4 profiles and stay behind. */
const COMMON: Readonly<Record<string, Step>> = {
  id: 'same',
  implicitRules: 'same',
  language: 'same',
  text: 'same',
  extension: 'same',
  modifierExtension: 'same',
  meta: value => {
    const { profile, ...rest } = fields(value);
    return {
      ...(Object.keys(rest).length > 0 && { set: { meta: rest } }),
      ...(profile !== undefined && { lost: 'claims of R4 profiles' }),
    };
  },
};

/** Builds the R5 form of a resource by its table. Pure; values that stay are the same objects, digits and all. */
export function build(resource: Fields, table: TypeTable): Built {
  const from = String(resource['resourceType']);
  const result: Record<string, unknown> = { resourceType: table.type };
  const losses: string[] = [];
  const unknown: string[] = [];
  for (const [key, value] of Object.entries(resource)) {
    if (value === undefined || key === 'resourceType') continue;
    const name = key.replace(/^_/, '');
    const found = stepFor(name, table.elements);
    if (!found) unknown.push(`${from}.${key}`);
    else if (typeof found.step === 'object' && 'lost' in found.step)
      losses.push(`${from}.${name}: ${found.step.lost}`);
    else if (typeof found.step === 'function' && key.startsWith('_'))
      losses.push(`${from}.${key}: extension of a value that is written otherwise`);
    else if (typeof found.step === 'function') {
      const part = found.step(value, resource);
      merge(result, part.set ?? {});
      if (part.lost !== undefined) losses.push(`${from}.${name}: ${part.lost}`);
    } else merge(result, { [key.replace(name, found.name)]: value });
  }
  return { resource: result, losses: [...new Set(losses)], unknown };
}

/** The step of an element and its R5 name; choices match by their stem. */
function stepFor(
  name: string,
  elements: TypeTable['elements'],
): { readonly step: Step; readonly name: string } | undefined {
  const direct = Object.hasOwn(elements, name) ? elements[name] : COMMON[name];
  if (direct !== undefined)
    return { step: direct, name: typeof direct === 'object' && 'to' in direct ? direct.to : name };
  for (const [choice, step] of Object.entries(elements)) {
    const stem = choice.endsWith('[x]') ? choice.slice(0, -3) : undefined;
    if (stem === undefined || !name.startsWith(stem) || !/^[A-Z]/.test(name.slice(stem.length))) continue;
    const to = typeof step === 'object' && 'to' in step ? step.to.slice(0, -3) : stem;
    return { step, name: `${to}${name.slice(stem.length)}` };
  }
  return undefined;
}

/** Two R4 elements may go to one of R5: their lists are joined. */
function merge(into: Record<string, unknown>, set: Fields): void {
  for (const [key, value] of Object.entries(set)) {
    const before = into[key];
    into[key] = Array.isArray(before) && Array.isArray(value) ? [...before, ...value] : value;
  }
}

/** An object as its fields; anything else as none. */
export function fields(value: unknown): Fields {
  return typeof value === 'object' && value !== null && !Array.isArray(value) ? { ...value } : {};
}

/** A list as it is, one value as a list of it. */
export function listOf(value: unknown): readonly unknown[] {
  return Array.isArray(value) ? value : value === undefined ? [] : [value];
}

/** Only what is there. */
export function withoutAbsent(value: Fields): Fields {
  return Object.fromEntries(Object.entries(value).filter(([, item]) => item !== undefined));
}

/** The elements of R4 that have the same name and meaning in R5. */
export function same(...names: readonly string[]): Readonly<Record<string, Step>> {
  return Object.fromEntries(names.map(name => [name, 'same']));
}

/** One value in R4, a list in R5. */
export const asList =
  (to: string): Step =>
  value => ({ set: { [to]: [value] } });

/** Concepts that R5 writes as CodeableReferences. */
export const concepts =
  (to: string): Step =>
  value => ({ set: { [to]: listOf(value).map(concept => ({ concept })) } });

/** References that R5 writes as CodeableReferences. */
export const references =
  (to: string): Step =>
  value => ({ set: { [to]: listOf(value).map(reference => ({ reference })) } });

/** One concept that R5 writes as a CodeableReference. */
export const oneConcept =
  (to: string): Step =>
  concept => ({ set: { [to]: { concept } } });

/** One reference that R5 writes as a CodeableReference. */
export const oneReference =
  (to: string): Step =>
  reference => ({ set: { [to]: { reference } } });

/** A code of R4 that is a concept in R5. */
export const coded = (system: string, code: unknown): Fields => ({ coding: [{ system, code }] });

/** R5 sizes are 64-bit, which its JSON writes as text. Source: FHIR R5, JSON, integer64. */
export function attachment(value: unknown): Fields {
  const { size, ...rest } = fields(value);
  return size === undefined ? rest : { ...rest, size: String(size) };
}
