import type { Resource } from '@medplum/fhirtypes';
import { type Json, parseJson } from '../../json/parse.js';

/** Numbers whose digits JavaScript would not keep, by their path in a resource: `valueQuantity.value` to `4.20`. */
export type Digits = ReadonlyMap<string, string>;

/** A parsed body, and the digits of each resource in it that stands alone or in a Bundle entry. */
export interface ParsedBody {
  readonly value: unknown;
  readonly digits: WeakMap<object, Digits>;
}

/**
 * Parses JSON into plain values and remembers, beside them, how decimals were written: the precision of a FHIR
 * decimal is part of its meaning (https://hl7.org/fhir/R4/datatypes.html#decimal), and the library's store
 * would round 4.20 to 4.2.
 *
 * @throws SyntaxError
 */
export function parseBody(text: string): ParsedBody {
  const { value, source, problems } = parseJson(text);
  const [problem] = problems;
  if (value === undefined || problem)
    throw new SyntaxError(problem ? `${problem.kind} at ${problem.offset}: ${problem.detail}` : 'not JSON');
  const digits = new WeakMap<object, Digits>();
  const walk = (node: Json | undefined, path: string, scopes: readonly Scope[]): void => {
    if (typeof node !== 'object' || node === null) return;
    const own = path === '' || /\.entry\.\d+\.resource$/.test(path) ? { path, found: new Map() } : undefined;
    const inner = own ? [...scopes, own] : scopes;
    if (own) digits.set(node, own.found);
    for (const [name, raw] of source.numbers.get(node) ?? [])
      for (const scope of inner) scope.found.set(`${path}.${name}`.slice(scope.path.length), raw);
    for (const [name, item] of Object.entries(node)) walk(item, `${path}.${name}`, inner);
  };
  walk(value, '', []);
  return { value, digits };
}

/** A resource being parsed: where it starts, and the digits found in it so far. */
interface Scope {
  readonly path: string;
  readonly found: Map<string, string>;
}

/** The digits of everything stored, by version. */
export class DigitBook {
  #incoming = new WeakMap<object, Digits>();
  readonly #stored = new Map<string, Digits>();

  /** Takes the digits of the request that is being served. */
  receive(digits: WeakMap<object, Digits>): void {
    this.#incoming = digits;
  }

  /** Keeps the digits of what came in for the version that it was stored as. */
  keep(incoming: object, stored: Resource): void {
    const digits = this.#incoming.get(incoming);
    // A copy: texts that were read are parts of the request in the engine, which would stay with them.
    if (digits && digits.size > 0) this.#stored.set(key(stored), structuredClone(digits));
  }

  of(resource: Resource): Digits | undefined {
    return this.#stored.get(key(resource));
  }
}

function key({ resourceType, id, meta }: Resource): string {
  return `${resourceType}/${id}/${meta?.versionId}`;
}

/**
 * Writes a resource as JSON with the digits that its numbers came in with. `digitsOf` knows them for a stored
 * resource; resources in the entries of a Bundle are looked up each for itself.
 */
export function writeBody(body: Resource, digitsOf: (resource: Resource) => Digits | undefined): string {
  const write = (node: unknown, path: string, digits: Digits | undefined): string => {
    if (typeof node === 'number') return digits?.get(path) ?? JSON.stringify(node);
    if (typeof node !== 'object' || node === null) return JSON.stringify(node);
    if (Array.isArray(node))
      return `[${node.map((item, i) => write(item, `${path}.${i}`, digits)).join(',')}]`;
    const members = Object.entries(node)
      .filter(([, item]) => item !== undefined)
      .map(([key, item]) => `${JSON.stringify(key)}:${write(item, `${path}.${key}`, digits)}`);
    return `{${members.join(',')}}`;
  };
  if (body.resourceType !== 'Bundle' || body.meta?.versionId || !body.entry)
    return write(body, '', digitsOf(body));
  const { entry: entries, ...rest } = body;
  const inner = entries.map(({ resource, ...entry }) => {
    const head = write(entry, '', undefined);
    if (!resource) return head;
    const member = `"resource":${write(resource, '', digitsOf(resource))}`;
    return head === '{}' ? `{${member}}` : `${head.slice(0, -1)},${member}}`;
  });
  return `${write(rest, '', undefined).slice(0, -1)},"entry":[${inner.join(',')}]}`;
}
