import { type Json, type JsonObject, parseJson, type Source } from '../../json/parse.js';
import { decodeUtf8 } from '../../record/read.js';
import { type Reply, refusal } from '../api/reply.js';

/** A resource as a request brings it. */
export interface SentResource {
  readonly text: string;
  readonly resource: JsonObject;
  readonly source: Source;
}

export const isObject = (value: Json | undefined): value is JsonObject =>
  typeof value === 'object' && value !== null && !Array.isArray(value);

const no = (code: 'structure' | 'invalid', text: string) => ({ refused: refusal(400, code, text) });

/** Reads a body as one resource. Source: FHIR R4, http.html: 400 for what cannot be parsed. */
export function sentResource(body: Uint8Array): SentResource | { readonly refused: Reply } {
  if (body.length === 0) return no('structure', 'The request has no body: send a resource or Parameters.');
  const read = decodeUtf8(body);
  if ('finding' in read) return no('structure', 'The body is not text in UTF-8.');
  const { text } = read;
  const { value, source, problems } = parseJson(text);
  const [problem] = problems;
  if (value === undefined)
    return no(
      'structure',
      problem?.kind === 'depth'
        ? 'The body is nested more deeply than a resource can be.'
        : `The body is not JSON that can be read: ${problem?.detail ?? 'nothing in it'} at character ${(problem?.offset ?? 0) + 1}.`,
    );
  if (!isObject(value) || typeof value['resourceType'] !== 'string')
    return no('structure', 'The body is no FHIR resource: it is to be a JSON object with a resourceType.');
  return { text, resource: value, source };
}

/** What may stand under one name of Parameters. */
export interface Allowed {
  /** Members that hold it: `resource`, `valueCode` … */
  readonly as: readonly string[];
  readonly most: number;
}

/** Values of Parameters by name, as an operation knows them; a refusal for anything else. Source: FHIR R4, operations.html. */
export function inputsOf(
  { resource }: SentResource,
  allowed: Readonly<Record<string, Allowed>>,
): ReadonlyMap<string, readonly Json[]> | { readonly refused: Reply } {
  const { parameter = [] } = resource;
  if (!Array.isArray(parameter)) return no('structure', "'parameter' of Parameters is to be a list.");
  const inputs = new Map<string, Json[]>();
  for (const [index, one] of (parameter as readonly Json[]).entries()) {
    const at = `Parameters.parameter[${index}]`;
    if (!isObject(one) || typeof one['name'] !== 'string')
      return no('structure', `${at} is to be an object with a name.`);
    const { name } = one;
    const rule = Object.hasOwn(allowed, name) ? allowed[name] : undefined;
    if (!rule)
      return no(
        'invalid',
        `${at} has a name that this operation does not know: use ${Object.keys(allowed).join(', ')}.`,
      );
    if ('part' in one) return no('invalid', `${at} has parts; '${name}' has a value of its own.`);
    const held = Object.keys(one).filter(key => key === 'resource' || /^value[A-Z]/.test(key));
    const [member] = held;
    const value = member === undefined ? undefined : one[member];
    if (member === undefined || held.length > 1 || !rule.as.includes(member) || value === undefined)
      return no('invalid', `${at} ('${name}') is to hold its value as ${rule.as.join(' or ')}.`);
    const all = [...(inputs.get(name) ?? []), value];
    if (all.length > rule.most)
      return no('invalid', `'${name}' may stand in Parameters ${rule.most} times at most.`);
    inputs.set(name, all);
  }
  return inputs;
}
