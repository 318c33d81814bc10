import {
  type Document,
  isAlias,
  isMap,
  isScalar,
  isSeq,
  Lexer,
  LineCounter,
  type Node,
  parseDocument,
} from 'yaml';
import { type Finding, finding } from '../findings/finding.js';
import { type Message, message } from '../findings/message.js';
import { codePoint } from './code-point.js';
import { cutByComma } from './comma.js';
import { type Position, pathSegments, pathText } from './path.js';
import { syntaxFinding } from './syntax.js';

/** Plain data as written: numbers stay text so that their digits survive. */
export type Tree = string | boolean | Tree[] | { [key: string]: Tree };

/** What came of reading a text: the data, where each path stands, and findings that stopped or marred it. */
export interface ReadText {
  readonly tree?: Tree;
  readonly findings: readonly Finding[];
  /** Position of a value; of the nearest enclosing one when the path is not in the text. */
  locate(path: string): Position | undefined;
}

/** Largest file, in bytes. A full case has some tens of kilobytes. */
export const MAX_BYTES = 1_048_576;
/** Deepest nesting. A case uses six levels. */
export const MAX_DEPTH = 32;
/** Most values in one file. A full case has some two thousand. */
export const MAX_VALUES = 20_000;

/** Keys that would reach into the objects of the language itself. */
export const FORBIDDEN: ReadonlySet<string> = new Set(['__proto__', 'constructor', 'prototype']);

/** Reads UTF-8 bytes; tells where they stop being UTF-8. */
export function decodeUtf8(bytes: Uint8Array): { text: string } | { finding: Finding } {
  try {
    return { text: new TextDecoder('utf-8', { fatal: true, ignoreBOM: false }).decode(bytes) };
  } catch {
    const good = goodBytes(bytes);
    const line = bytes.subarray(0, good).reduce((count, byte) => count + (byte === 0x0a ? 1 : 0), 1);
    return { finding: finding('record.not-text', '', { byte: String(good + 1) }, { line, column: 1 }) };
  }
}

/** How many bytes at the start are UTF-8; found by halves, since a decoder only says that something is wrong. */
function goodBytes(bytes: Uint8Array): number {
  const reads = (length: number) => {
    try {
      new TextDecoder('utf-8', { fatal: true }).decode(bytes.subarray(0, length), { stream: true });
      return true;
    } catch {
      return false;
    }
  };
  let [good, bad] = [0, bytes.length + 1];
  while (bad - good > 1) {
    const middle = Math.floor((good + bad) / 2);
    if (reads(middle)) good = middle;
    else bad = middle;
  }
  return Math.min(good, bytes.length - 1);
}

/** Reads YAML or JSON text within bounds, keeping the position of every value. */
export function readText(text: string): ReadText {
  const size = new TextEncoder().encode(text).byteLength;
  if (size > MAX_BYTES)
    return failed([finding('record.too-big', '', { size: String(size), limit: String(MAX_BYTES) })]);
  const lines = new LineCounter();
  const stop = unfit(text);
  if (stop) return failed([stop]);
  let document: Document.Parsed;
  try {
    // Doubled keys are found while walking: the library compares each key with each other, which is slow for many.
    document = parseDocument(text, {
      lineCounter: lines,
      uniqueKeys: false,
      prettyErrors: false,
      strict: true,
    });
  } catch (error) {
    if (error instanceof RangeError) return failed([tooDeep()]);
    throw error;
  }
  if (document.errors.some(error => error.message.includes('call stack'))) return failed([tooDeep()]);
  // What follows the first fault is mostly its echo.
  const [first] = document.errors;
  if (first) return failed([syntaxFinding(first, position(lines, first.pos[0]))]);
  return walk(document, lines);
}

const failed = (findings: readonly Finding[]): ReadText => ({ findings, locate: () => undefined });
const tooMany = () => finding('record.too-many', '', { limit: String(MAX_VALUES) });
const tooDeep = () => finding('record.too-deep', '', { limit: String(MAX_DEPTH) });

function position(lines: LineCounter, offset: number): Position {
  const { line, col } = lines.linePos(offset);
  return { line: Math.max(line, 1), column: Math.max(col, 1) };
}

/** What a hostile or broken file is refused for before it reaches the recursive parser. */
function unfit(text: string): Finding | undefined {
  // biome-ignore lint/suspicious/noControlCharactersInRegex: these are what is looked for; 04, 1D and 1E belong to labels
  const control = /[\u0000-\u0003\u0005-\u0008\u000b\u000c\u000e-\u001c\u001f\u007f]/.exec(text);
  if (control) {
    const before = text.slice(0, control.index).split('\n');
    const at = { line: before.length, column: (before.at(-1)?.length ?? 0) + 1 };
    return finding(
      'record.control-character',
      '',
      { character: codePoint(control[0]) },
      { ...at, severity: 'fatal' },
    );
  }
  if (nestsTooDeep(text)) return tooDeep();
  return holdsTooMuch(text) ? tooMany() : undefined;
}

/**
 * Whether there are more values than are read. Each has two marks around it at most, and two that open a name or a text
 * (`{ "a": "1", "b": "2" }`), which are counted as they come; the parser holds some 2 kB for each value until all is read.
 */
function holdsTooMuch(text: string): boolean {
  const most = 2 * MAX_VALUES;
  if (text.length <= most) return false;
  let [around, opening] = [0, 0];
  for (const lexeme of new Lexer().lex(text)) {
    if (lexeme === ':' || lexeme === ',' || lexeme === '-') around += 1;
    else if (/^["'&*!]/.test(lexeme)) opening += 1;
    if (around > most || opening > most) return true;
  }
  return false;
}

/** Counts brackets and block marks. */
function nestsTooDeep(text: string): boolean {
  let open = 0;
  for (const char of text) {
    if (char === '[' || char === '{') open++;
    else if (char === ']' || char === '}') open = Math.max(0, open - 1);
    if (open > 200) return true;
  }
  return /(?:[-?:][ \t]+){40}/.test(text) || /^ {400,}\S/m.test(text);
}

/** Turns the document into plain data and notes where each path stands. */
function walk(document: Document.Parsed, lines: LineCounter): ReadText {
  const places = new Map<string, Position>();
  const findings: Finding[] = [];
  let values = 0;
  const at = (node: { range?: readonly number[] | null }): Position => position(lines, node.range?.[0] ?? 0);
  const report = (found: Finding) => {
    if (found.code !== 'record.too-deep' || !findings.some(f => f.code === found.code)) findings.push(found);
    return undefined;
  };

  const visit = (
    node: Node | null | undefined,
    path: readonly PropertyKey[],
    name: string | Message,
  ): Tree | undefined => {
    values++;
    if (values > MAX_VALUES) return undefined;
    const where = pathText(path);
    if (path.length > MAX_DEPTH) return report(tooDeep());
    if (node === null || node === undefined) return report(emptyValue(where, name, places.get(where)));
    if (!places.has(where)) places.set(where, at(node));
    const marked = isAlias(node)
      ? `*${node.source}`
      : node.anchor
        ? `&${node.anchor}`
        : node.tag && !PLAIN_TAGS.has(node.tag)
          ? node.tag
          : undefined;
    if (marked) return report(finding('record.alias', where, { what: marked.slice(0, 60) }, at(node)));
    if (isMap(node)) return visitMap(node.items, node.flow === true, path);
    if (isSeq(node)) {
      return node.items.flatMap((item, index) => {
        const value = visit(
          item as Node | null,
          [...path, index],
          message('reading.item', { n: `${index + 1}` }),
        );
        return value === undefined ? [] : [value];
      });
    }
    if (!isScalar(node)) return undefined;
    if (node.value === null) return report(emptyValue(where, name, at(node)));
    if (typeof node.value === 'boolean') return node.value;
    // The source of a plain number keeps its digits; quoted text has no need of it.
    return typeof node.value === 'string' ? node.value : (node.source ?? String(node.value));
  };

  const visitMap = (
    items: readonly { key: unknown; value: unknown }[],
    inBraces: boolean,
    path: readonly PropertyKey[],
  ): Tree => {
    const entries = new Map<string, Tree>();
    const seen = new Set<string>();
    for (const [index, pair] of items.entries()) {
      if (values > MAX_VALUES) break;
      const keyNode = pair.key as Node | null;
      const name = isScalar(keyNode) ? String(keyNode.source ?? keyNode.value) : '';
      const here = [...path, name];
      const spot = keyNode ? at(keyNode) : undefined;
      if (name === '<<' || !isScalar(keyNode)) {
        report(
          finding('record.alias', pathText(path), { what: name || message('reading.keyNotText') }, spot),
        );
        continue;
      }
      if (FORBIDDEN.has(name)) {
        report(finding('record.forbidden-key', pathText(path), { key: name }, spot));
        continue;
      }
      if (seen.has(name)) {
        values += 1;
        report(finding('record.duplicate-key', pathText(here), { key: name.slice(0, 60) }, spot));
        continue;
      }
      seen.add(name);
      if (spot) places.set(pathText(here), spot);
      const cut = inBraces ? cutByComma(items, index) : undefined;
      if (cut) {
        report(emptyValue(pathText(here), name, spot, cut));
        continue;
      }
      const value = visit(pair.value as Node | null, here, name);
      if (value !== undefined) entries.set(name, value);
    }
    return Object.fromEntries(entries);
  };

  const tree = visit(document.contents, [], message('reading.file'));
  if (values > MAX_VALUES) return failed([tooMany()]);
  return {
    ...(tree !== undefined && { tree }),
    findings,
    locate: path => nearestPlace(places, path),
  };
}

function emptyValue(
  where: string,
  name: string | Message,
  spot: Position | undefined,
  remedy?: Message,
): Finding {
  const key = typeof name === 'string' ? name.slice(0, 60) : name;
  return finding('record.empty-value', where, { key }, { ...spot, ...(remedy && { remedy }) });
}

const PLAIN_TAGS: ReadonlySet<string> = new Set(
  ['map', 'seq', 'str', 'int', 'float', 'bool', 'null'].map(name => `tag:yaml.org,2002:${name}`),
);

function nearestPlace(places: ReadonlyMap<string, Position>, path: string): Position | undefined {
  const segments = pathSegments(path);
  for (let length = segments.length; length >= 0; length--) {
    const place = places.get(pathText(segments.slice(0, length)));
    if (place) return place;
  }
  return undefined;
}
