/** What JSON is read into, with numbers as `N`. */
type Value<N> = string | boolean | null | N | readonly Value<N>[] | { readonly [name: string]: Value<N> };

/** JSON as JavaScript has it. */
export type Json = string | number | boolean | null | JsonObject | readonly Json[];
export interface JsonObject {
  readonly [name: string]: Json | undefined;
}

/** A number with the digits that it was written with. */
export class ExactNumber {
  readonly value: string;
  constructor(value: string) {
    this.value = value;
  }
  toString(): string {
    return this.value;
  }
}

/** JSON in which a number keeps the digits it was written with. */
export type ExactJson = null | boolean | string | ExactNumber | readonly ExactJson[] | ExactObject;
export interface ExactObject {
  readonly [key: string]: ExactJson;
}

/**
 * Offsets in the text for objects and arrays of the value: of the object or array itself, then of its members in the
 * order of `Object.keys`.
 */
export type Offsets = ReadonlyMap<object, readonly number[]>;

/** Where things stood in the text, and how numbers were written. */
export interface Source {
  readonly text: string;
  readonly offsets: Offsets;
  /** Numbers whose text differs from what JavaScript would write (`1.50`), by owner and member name. */
  readonly numbers: ReadonlyMap<object, ReadonlyMap<string, string>>;
}

/** A fault of the JSON itself. */
export interface JsonProblem {
  readonly kind: 'syntax' | 'duplicate' | 'depth';
  readonly offset: number;
  readonly detail: string;
}

export interface ParsedJson {
  /** Absent when the text could not be read to its end. */
  readonly value?: Json;
  readonly source: Source;
  readonly problems: readonly JsonProblem[];
}

/** Resources nest some ten levels; Questionnaire items somewhat more. */
export const MAX_DEPTH = 200;

/**
 * Reads JSON (RFC 8259) and keeps the position of every member and the digits of every number.
 * Never throws: a text that is no JSON gives a problem and no value.
 */
export function parseJson(text: string): ParsedJson {
  const numbers = new Map<object, Map<string, string>>();
  const { value, offsets, problems } = read(text, (raw, owner, name): number => {
    const number = Number(raw);
    if (String(number) !== raw) {
      const kept = numbers.get(owner) ?? new Map<string, string>();
      numbers.set(owner, kept.set(name, raw));
    }
    return number;
  });
  return { ...(value !== undefined && { value }), source: { text, offsets, numbers }, problems };
}

/** Reads JSON and keeps each number's digits in its place. @throws SyntaxError for text that is not JSON. */
export function parseExact(text: string): ExactJson {
  const { value, problems } = read(text, raw => new ExactNumber(raw));
  const [problem] = problems;
  if (value === undefined || problem)
    throw new SyntaxError(problem ? `${problem.kind} at ${problem.offset}: ${problem.detail}` : 'not JSON');
  return value;
}

class Stop extends Error {
  readonly problem: JsonProblem;
  constructor(problem: JsonProblem) {
    super(problem.detail);
    this.problem = problem;
  }
}

/** The characters of a string up to its closing quote, an escape or a fault. */
const PLAIN = /[ !#-[\]-\uffff]*/y;
const NUMBER = /-?(?:0|[1-9]\d*)(?:\.\d+)?(?:[eE][+-]?\d+)?/y;

interface Reading<N> {
  readonly value?: Value<N>;
  readonly offsets: Offsets;
  readonly problems: readonly JsonProblem[];
}

function read<N>(text: string, numberOf: (raw: string, owner: object, name: string) => N): Reading<N> {
  const offsets = new Map<object, number[]>();
  const problems: JsonProblem[] = [];
  let at = text.charCodeAt(0) === 0xfeff ? 1 : 0;

  const fail = (detail: string, offset = at): never => {
    throw new Stop({ kind: 'syntax', offset, detail });
  };

  const skip = () => {
    for (;;) {
      const code = text.charCodeAt(at);
      if (code !== 32 && code !== 10 && code !== 13 && code !== 9) return;
      at += 1;
    }
  };

  const found = () => (at < text.length ? `"${String.fromCodePoint(text.codePointAt(at) ?? 0)}"` : 'the end');

  const string = (): string => {
    const start = at + 1;
    PLAIN.lastIndex = start;
    PLAIN.test(text);
    let end = PLAIN.lastIndex;
    const simple = text.charCodeAt(end) === 34;
    while (text.charCodeAt(end) !== 34) {
      const code = text.charCodeAt(end);
      if (Number.isNaN(code)) fail('a string is not closed', at);
      if (code < 32) fail('a control character stands in a string; write it as an escape', end);
      end += code === 92 ? 2 : 1;
    }
    at = end + 1;
    const raw = text.slice(start, end);
    if (simple) return raw;
    try {
      return JSON.parse(`"${raw}"`) as string;
    } catch {
      return fail('a string holds a wrong escape', start);
    }
  };

  const asXml = () =>
    at === text.search(/\S/) && text[at] === '<' ? '; this looks like XML, and only JSON is read here' : '';

  const number = (owner: object, name: string): N => {
    NUMBER.lastIndex = at;
    const raw = NUMBER.exec(text)?.[0];
    if (raw === undefined) return fail(`expected a value, found ${found()}${asXml()}`);
    at += raw.length;
    return numberOf(raw, owner, name);
  };

  const word = (literal: string, value: boolean | null) => {
    if (!text.startsWith(literal, at)) fail(`expected a value, found ${found()}`);
    at += literal.length;
    return value;
  };

  const array = (depth: number): Value<N>[] => {
    const items: Value<N>[] = [];
    const places = [at];
    offsets.set(items, places);
    at += 1;
    skip();
    if (text.charCodeAt(at) === 93) {
      at += 1;
      return items;
    }
    for (;;) {
      skip();
      places.push(at);
      items.push(value(depth, items, String(items.length)));
      skip();
      const code = text.charCodeAt(at);
      if (code !== 44 && code !== 93) fail(`expected "," or "]", found ${found()}`);
      at += 1;
      if (code === 93) return items;
    }
  };

  const object = (depth: number): Value<N> => {
    const members: Record<string, Value<N>> = {};
    const places = [at];
    offsets.set(members, places);
    at += 1;
    skip();
    if (text.charCodeAt(at) === 125) {
      at += 1;
      return members;
    }
    for (;;) {
      skip();
      if (text.charCodeAt(at) !== 34) fail(`expected a property name in quotes, found ${found()}`);
      const place = at;
      const name = string();
      skip();
      if (text.charCodeAt(at) !== 58) fail(`expected ":" after a property name, found ${found()}`);
      at += 1;
      skip();
      const member = value(depth, members, name);
      if (Object.hasOwn(members, name)) problems.push({ kind: 'duplicate', offset: place, detail: name });
      else places.push(place);
      // Assigning __proto__ would change the object's prototype instead of adding a member.
      if (name === '__proto__') Object.defineProperty(members, name, { value: member, enumerable: true });
      else members[name] = member;
      skip();
      const code = text.charCodeAt(at);
      if (code !== 44 && code !== 125) fail(`expected "," or "}", found ${found()}`);
      at += 1;
      if (code === 125) return members;
    }
  };

  const value = (depth: number, owner: object, name: string): Value<N> => {
    if (depth > MAX_DEPTH) throw new Stop({ kind: 'depth', offset: at, detail: String(MAX_DEPTH) });
    switch (text.charCodeAt(at)) {
      case 123:
        return object(depth + 1);
      case 91:
        return array(depth + 1);
      case 34:
        return string();
      case 116:
        return word('true', true);
      case 102:
        return word('false', false);
      case 110:
        return word('null', null);
      default:
        return number(owner, name);
    }
  };

  try {
    skip();
    const root = value(0, offsets, '');
    skip();
    if (at < text.length) fail(`expected the end of the text, found ${found()}`);
    return { value: root, offsets, problems };
  } catch (error) {
    if (!(error instanceof Stop)) throw error;
    return { offsets, problems: [...problems, error.problem] };
  }
}
