import { createHash } from 'node:crypto';
import {
  type ExactJson,
  type ExactObject,
  isExactArray,
  listAt,
  objectAt,
  parseExact,
  textAt,
} from '../answer/exact-json.js';
import { type Accepted, type Expected, expectedIn } from './expected.js';
import { referencesIn } from './references.js';

/** The record path that a place in the submission came from; undefined when the mapping does not know. */
export type SourceOf = (entry: number, elementPath: string) => string | undefined;

/** One entry of a submission as it goes out. */
export interface SentEntry {
  readonly index: number;
  readonly fullUrl: string;
  readonly method: string;
  readonly url: string;
  /** Resource type that the request is about. */
  readonly type: string;
  /** Search criteria that find the resource at the server; absent when it has no business identifier. */
  readonly criteria?: Criteria;
  /** Search criteria under which the server is to create nothing. */
  readonly ifNoneExist?: string;
  readonly ifMatch?: string;
  readonly resource?: ExactObject;
  /** The references in the resource to other entries, `urn:…`, each once. */
  readonly placeholders: readonly string[];
  /** The conditional references in the resource, such as `Patient?identifier=…`, each once. */
  readonly conditional: readonly string[];
  /** The literal references in the resource, such as `Patient/12`, each once. */
  readonly literal: readonly string[];
}

export interface Criteria {
  readonly parameter: string;
  readonly value: string;
}

/** A submission read back from the exact text that will be sent. */
export interface Submission {
  readonly text: string;
  /** `sha256:` and the hexadecimal digest of the text's UTF-8 bytes. */
  readonly digest: string;
  readonly bytes: number;
  readonly entries: readonly SentEntry[];
  /** Leads what a server says back to the record. */
  readonly sourceOf: SourceOf;
  /** What the record says of those that the submission only refers to. */
  readonly expected: Expected;
  /** Near matches that a person let pass. */
  readonly accepted: readonly Accepted[];
}

/** What is kept beside the text of a submission. */
export interface Beside {
  readonly context?: string | undefined;
  readonly accepted?: readonly Accepted[] | undefined;
}

/**
 * Types that a submission may mention but that other systems keep, or work on once they have them (Task): finding one
 * already there, with other content than ours, is normal.
 */
const SHARED_TYPES: ReadonlySet<string> = new Set([
  'Encounter',
  'Location',
  'Organization',
  'Patient',
  'Practitioner',
  'PractitionerRole',
  'Task',
]);

/** True for entries whose content is the case's own: a ServiceRequest is, unless it is the order that came in. */
export function isOwn(entry: SentEntry): boolean {
  if (entry.type === 'ServiceRequest')
    return entry.resource !== undefined && textAt(entry.resource, 'intent') !== 'order';
  return !SHARED_TYPES.has(entry.type) && !isSoftware(entry);
}

/** True for the account of the software itself, which is one for all cases that a release of it made. */
export function isSoftware({ type, resource }: SentEntry): boolean {
  return type === 'Device' && textAt(objectAt(resource, 'type'), 'text') === 'Software';
}

/** Reads a transaction Bundle; undefined when the text is not one. */
export function readSubmission(
  text: string,
  sourceOf: SourceOf = () => undefined,
  { context, accepted = [] }: Beside = {},
): Submission | undefined {
  let bundle: ExactJson;
  try {
    bundle = parseExact(text);
  } catch {
    return undefined;
  }
  if (textAt(bundle, 'resourceType') !== 'Bundle' || textAt(bundle, 'type') !== 'transaction')
    return undefined;
  return {
    text,
    digest: digestOf(text),
    bytes: Buffer.byteLength(text, 'utf8'),
    entries: listAt(bundle, 'entry').map(readEntry),
    sourceOf,
    expected: expectedIn(context),
    accepted,
  };
}

/** `sha256:` and the hexadecimal digest of the UTF-8 bytes. */
export function digestOf(text: string): string {
  return `sha256:${createHash('sha256').update(text, 'utf8').digest('hex')}`;
}

function readEntry(entry: ExactJson, index: number): SentEntry {
  const request = objectAt(entry, 'request');
  const resource = objectAt(entry, 'resource');
  const references = referencesIn(resource);
  const url = textAt(request, 'url') ?? '';
  const ifMatch = textAt(request, 'ifMatch');
  const ifNoneExist = textAt(request, 'ifNoneExist');
  const identifier = identifierOf(resource);
  const criteria =
    criteriaOf(ifNoneExist ?? url.split(/\?(.*)/s)[1]) ??
    (identifier && { parameter: 'identifier', value: `${identifier.system}|${identifier.value}` });
  return {
    index,
    fullUrl: textAt(entry, 'fullUrl') ?? '',
    method: textAt(request, 'method') ?? '',
    url,
    type: url.split(/[/?]/)[0] ?? '',
    ...(criteria && { criteria }),
    ...(ifNoneExist !== undefined && { ifNoneExist }),
    ...(ifMatch !== undefined && { ifMatch }),
    ...(resource && { resource }),
    placeholders: references.filter(reference => reference.startsWith('urn:')),
    conditional: references.filter(reference => /^[A-Z]\w*\?/.test(reference)),
    literal: references.filter(reference => /^[A-Z]\w*\/[A-Za-z0-9.-]{1,64}$/.test(reference)),
  };
}

/** The one search parameter of a conditional request or reference; undefined for none or several. */
export function criteriaOf(query: string | undefined): Criteria | undefined {
  if (!query) return undefined;
  const [first, ...others] = new URLSearchParams(query.replace(/^[A-Z]\w*\?/, ''));
  return first && others.length === 0 ? { parameter: first[0], value: first[1] } : undefined;
}

/** The first business identifier of a resource, when it has system and value. */
export function identifierOf(
  resource: ExactObject | undefined,
): { readonly system: string; readonly value: string } | undefined {
  const identifier = resource?.['identifier'];
  const first = isExactArray(identifier) ? identifier[0] : identifier;
  const system = textAt(first, 'system');
  const value = textAt(first, 'value');
  return system && value ? { system, value } : undefined;
}
