/** A JSON value as JavaScript holds it. */
export type Json = string | number | boolean | null | JsonObject | readonly Json[];
export interface JsonObject {
  readonly [name: string]: Json | undefined;
}

export type Offsets = ReadonlyMap<object, readonly number[]>;

/** Where things stood in the text, and how numbers were written. */
export interface Source {
  readonly text: string;
  /**
   * Offsets in the text for objects and arrays of the value: of the object or array itself, then of its
   * members in the order of `Object.keys`.
   */
  readonly offsets: (owners: ReadonlySet<object>) => Offsets;
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

class Stop extends Error {
  readonly problem: JsonProblem;
  constructor(problem: JsonProblem) {
    super(problem.detail);
    this.problem = problem;
  }
}

const NUMBER = /-?(?:0|[1-9]\d*)(?:\.\d+)?(?:[eE][+-]?\d+)?/y;

/**
 * Reads JSON (RFC 8259) and keeps the position of every member and the digits of every number.
 * Never throws: a text that is no JSON gives a problem and no value.
 */
export function parseJson(text: string): ParsedJson {
  const offsets = new Map<object, number[]>();
  const numbers = new Map<object, Map<string, string>>();
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
    let end = start;
    let escaped = false;
    for (;;) {
      const code = text.charCodeAt(end);
      if (code === 34) break;
      if (code > 34 && code !== 92) end += 1;
      else if (code === 92) {
        escaped = true;
        end += 2;
      } else if (code < 32) fail('a control character stands in a string; write it as an escape', end);
      else if (Number.isNaN(code)) fail('a string is not closed', at);
      else end += 1;
    }
    at = end + 1;
    const raw = text.slice(start, end);
    if (!escaped) return raw;
    try {
      return JSON.parse(`"${raw}"`) as string;
    } catch {
      return fail('a string holds a wrong escape', start);
    }
  };

  const asXml = () =>
    at === text.search(/\S/) && text[at] === '<' ? '; this looks like XML, and only JSON is read here' : '';

  const number = (owner: object, name: string): number => {
    NUMBER.lastIndex = at;
    const raw = NUMBER.exec(text)?.[0];
    if (raw === undefined) return fail(`expected a value, found ${found()}${asXml()}`);
    at += raw.length;
    const value = Number(raw);
    if (String(value) !== raw) {
      const kept = numbers.get(owner) ?? new Map<string, string>();
      numbers.set(owner, kept.set(name, raw));
    }
    return value;
  };

  const word = (literal: string, value: boolean | null) => {
    if (!text.startsWith(literal, at)) fail(`expected a value, found ${found()}`);
    at += literal.length;
    return value;
  };

  const array = (depth: number): Json[] => {
    const items: Json[] = [];
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

  const object = (depth: number): JsonObject => {
    const members: Record<string, Json> = {};
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

  const value = (depth: number, owner: object, name: string): Json => {
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

  const source: Source = { text, offsets: () => offsets, numbers };
  try {
    skip();
    const root = value(0, offsets, '');
    skip();
    if (at < text.length) fail(`expected the end of the text, found ${found()}`);
    return { value: root, source, problems };
  } catch (error) {
    if (!(error instanceof Stop)) throw error;
    return { source, problems: [...problems, error.problem] };
  }
}
