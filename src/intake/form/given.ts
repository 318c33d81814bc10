import type { Json, JsonObject } from '../../json/parse.js';
import type { Tree } from '../../record/read.js';
import type { About, Contribution, GivenValue } from '../contribution.js';
import { isObject } from './items.js';
import { formNodes, nodeByLinkId } from './model.js';
import { type FormNode, isGroupNode } from './node.js';
import type { Fields } from './place.js';

/** FHIR's dateTime of R4: a partial date, or a time with its offset. */
const DATE_TIME = /^\d{4}(?:-\d{2}(?:-\d{2}(?:T\d{2}:\d{2}:\d{2}(?:\.\d+)?(?:Z|[+-]\d{2}:\d{2}))?)?)?$/;

/** When the response was made, as far as it says so in FHIR's form. */
export function authoredOf({ authored }: JsonObject): string | undefined {
  return typeof authored === 'string' && DATE_TIME.test(authored) ? authored : undefined;
}

/** What the form gives to a record that there is already. @param proposed nobody stands for it yet */
export function contributionOf(
  response: JsonObject,
  fields: Fields,
  at: string,
  proposed: boolean,
): Omit<Contribution, 'findings'> {
  const by = displayOf(response['author']) ?? displayOf(response['source']);
  return {
    ...{ from: 'form', at },
    ...(by !== undefined && { by }),
    about: aboutOf(fields),
    values: formNodes.flatMap(node => valuesOf(node, fields, [], proposed)),
  };
}

function valuesOf(
  node: FormNode,
  fields: Fields,
  path: readonly string[],
  proposed: boolean,
): readonly GivenValue[] {
  const value = Object.hasOwn(fields, node.name) ? fields[node.name] : undefined;
  if (value === undefined) return [];
  const isNone = value === 'none';
  // `none` is said once, by the word that stands beside the group.
  if (node.kind === 'none' ? !isNone : isNone && nodeByLinkId.has(`${node.linkId}.none`)) return [];
  const to = [...path, node.name];
  const set = (given: Tree): GivenValue => ({ path: to, value: given, as: proposed ? 'propose' : 'set' });
  if (Array.isArray(value))
    return value.map(one => ({ path: to, value: one, as: proposed ? 'propose-entry' : 'add' }));
  if (typeof value !== 'object' || !isGroupNode(node) || node.kind === 'list') return [set(value)];
  if (node.kind === 'keyed')
    return Object.entries(value).flatMap(([key, entry]) =>
      isFields(entry) ? node.children.flatMap(child => valuesOf(child, entry, [...to, key], proposed)) : [],
    );
  // A name is one value, and so is a group that was named with nothing in it.
  if (node.short !== undefined || Object.keys(value).length === 0) return [set(value)];
  return node.children.flatMap(child => valuesOf(child, value, to, proposed));
}

function aboutOf({ patient, case: own }: Fields): About {
  const text = (tree: Tree | undefined, name: string) => {
    const value = isFields(tree) ? tree[name] : undefined;
    return typeof value === 'string' ? value : undefined;
  };
  const numbers = isFields(patient) && Array.isArray(patient['identifiers']) ? patient['identifiers'] : [];
  const identifiers = numbers.flatMap(number => {
    const [system, value] = [text(number, 'system'), text(number, 'value')];
    return value === undefined ? [] : [{ value, ...(system !== undefined && { system }) }];
  });
  const said = {
    name: text(patient, 'name'),
    birthDate: text(patient, 'birthDate'),
    sex: text(patient, 'sex'),
    accession: text(own, 'accession'),
  };
  return {
    ...(identifiers.length > 0 && { identifiers }),
    ...Object.fromEntries(Object.entries(said).filter(([, value]) => value !== undefined)),
  };
}

const isFields = (tree: Tree | undefined): tree is Fields => typeof tree === 'object' && !Array.isArray(tree);

function displayOf(reference: Json | undefined): string | undefined {
  const display = isObject(reference) ? reference['display'] : undefined;
  return typeof display === 'string' && display.trim() !== '' ? display.trim() : undefined;
}
