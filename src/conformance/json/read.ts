import type { Json, Offsets, ParsedJson, Source } from './parse.js';
import { MAX_DEPTH, parseJson } from './parse.js';

/**
 * Reads JSON as `parseJson` does, with the same result, but quickly: JavaScript's own parser makes the values
 * and one scan notes where things stand. What the two cannot tell apart (names written twice, names that
 * are numbers, a text that is faulty, very deep or no object) is left to `parseJson`.
 */
export function readJson(text: string): ParsedJson {
  let value: Json;
  try {
    value = JSON.parse(text) as Json;
  } catch {
    return parseJson(text);
  }
  const layout = typeof value === 'object' && value !== null ? layoutOf(text) : undefined;
  const numbers = layout && numbersIn(value as object, layout);
  if (!layout || !numbers) return parseJson(text);
  const root = value as object;
  const source: Source = { text, numbers, offsets: owners => placesOf(root, layout.offsets, owners) };
  return { value, source, problems: [] };
}

/** Offsets in the order of the text: of each object and array, and of each of their members. */
interface Layout {
  readonly offsets: readonly number[];
  /** Numbers that JavaScript would write otherwise, by the index of their member in `offsets`. */
  readonly odd: readonly (readonly [index: number, digits: string])[];
}

const OBJECT = true;

/** Scans a text that is known to be JSON; gives nothing when it is too deep. */
function layoutOf(text: string): Layout | undefined {
  const offsets: number[] = [];
  const odd: [number, string][] = [];
  const around: boolean[] = [];
  let inside = OBJECT;
  let name = false;
  let at = 0;
  while (at < text.length) {
    const code = text.charCodeAt(at);
    if (code <= 32 || code === COLON) {
      at += 1;
    } else if (code === QUOTE) {
      if (name || inside !== OBJECT) offsets.push(at);
      name = false;
      at = endOfString(text, at);
    } else if (code === COMMA) {
      name = inside === OBJECT;
      at += 1;
    } else if (code === OPEN_OBJECT || code === OPEN_ARRAY) {
      if (around.length > 0 && inside !== OBJECT) offsets.push(at);
      offsets.push(at);
      around.push(inside);
      if (around.length > MAX_DEPTH) return undefined;
      inside = code === OPEN_OBJECT;
      name = inside === OBJECT;
      at += 1;
    } else if (code === CLOSE_OBJECT || code === CLOSE_ARRAY) {
      inside = around.pop() ?? OBJECT;
      name = false;
      at += 1;
    } else {
      if (inside !== OBJECT) offsets.push(at);
      const end = endOfWord(text, at);
      if (code < 58) {
        const digits = text.slice(at, end);
        if (String(Number(digits)) !== digits) odd.push([offsets.length - 1, digits]);
      }
      at = end;
    }
  }
  return { offsets, odd };
}

const [QUOTE, COMMA, COLON] = [34, 44, 58];
const [OPEN_OBJECT, CLOSE_OBJECT, OPEN_ARRAY, CLOSE_ARRAY, BACKSLASH] = [123, 125, 91, 93, 92];

/** Offset behind the closing quote of the string at `start`. */
function endOfString(text: string, start: number): number {
  let end = text.indexOf('"', start + 1);
  for (;;) {
    let before = end - 1;
    while (text.charCodeAt(before) === BACKSLASH) before -= 1;
    // After an odd number of backslashes the quote belongs to the string.
    if ((end - before) % 2 === 1) return end + 1;
    end = text.indexOf('"', end + 1);
  }
}

/** Offset behind a number, `true`, `false` or `null`. */
function endOfWord(text: string, start: number): number {
  let end = start + 1;
  while (end < text.length) {
    const code = text.charCodeAt(end);
    if (code <= 32 || code === COMMA || code === CLOSE_OBJECT || code === CLOSE_ARRAY) break;
    end += 1;
  }
  return end;
}

/** Goes through the values in the order of the text; gives nothing where the two do not fit. */
function numbersIn(root: object, { offsets, odd }: Layout): Map<object, Map<string, string>> | undefined {
  const numbers = new Map<object, Map<string, string>>();
  let index = 0;
  let next = 0;
  const visit = (owner: object): boolean => {
    index += 1;
    if (!Array.isArray(owner) && namesAreNumbers(owner)) return false;
    for (const name in owner) {
      const member = (owner as Readonly<Record<string, Json>>)[name];
      if (odd[next]?.[0] === index) {
        const kept = numbers.get(owner) ?? new Map<string, string>();
        numbers.set(owner, kept.set(name, odd[next]?.[1] ?? ''));
        next += 1;
      }
      index += 1;
      if (typeof member === 'object' && member !== null && !visit(member)) return false;
    }
    return true;
  };
  // A name written twice has one value and two places.
  return visit(root) && index === offsets.length ? numbers : undefined;
}

/** JavaScript moves such names to the front. */
function namesAreNumbers(owner: object): boolean {
  for (const name in owner) {
    const code = name.charCodeAt(0);
    return code >= 48 && code <= 57;
  }
  return false;
}

function placesOf(root: object, offsets: readonly number[], owners: ReadonlySet<object>): Offsets {
  const found = new Map<object, number[]>();
  let index = 0;
  const visit = (owner: object): void => {
    const places = owners.has(owner) ? [offsets[index] ?? 0] : undefined;
    if (places) found.set(owner, places);
    index += 1;
    for (const name in owner) {
      const member = (owner as Readonly<Record<string, Json>>)[name];
      places?.push(offsets[index] ?? 0);
      index += 1;
      if (typeof member === 'object' && member !== null) visit(member);
    }
  };
  visit(root);
  return found;
}
