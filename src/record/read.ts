import { type Document, isAlias, isMap, isScalar, isSeq, LineCounter, type Node, parseDocument } from 'yaml';
import { type Finding, finding } from '../findings/finding.js';

/** Line and column, both from 1. */
export interface Position {
  readonly line: number;
  readonly column: number;
}

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

const FORBIDDEN = new Set(['__proto__', 'constructor', 'prototype']);

/** Joins path segments: `events[3].over`. */
export function pathText(segments: readonly PropertyKey[]): string {
  let text = '';
  for (const segment of segments)
    text += typeof segment === 'number' ? `[${segment}]` : `${text === '' ? '' : '.'}${String(segment)}`;
  return text;
}

/** Takes a path apart again; the other half of `pathText`. Keys hold no dots or brackets (see `key` in the schema). */
export function pathSegments(path: string): PropertyKey[] {
  return [...path.matchAll(/[^.[\]]+/g)].map(([segment]) =>
    /^\d+$/.test(segment) ? Number(segment) : segment,
  );
}

/** Reads UTF-8 bytes; tells where they stop being UTF-8. */
export function decodeUtf8(bytes: Uint8Array): { text: string } | { finding: Finding } {
  try {
    return { text: new TextDecoder('utf-8', { fatal: true, ignoreBOM: false }).decode(bytes) };
  } catch {
    // Latin-1 keeps one character a byte, so the first bad byte is where re-encoding differs.
    const lossy = Buffer.from(new TextDecoder('utf-8').decode(bytes), 'utf8');
    let at = 0;
    while (at < bytes.length && bytes[at] === lossy[at]) at++;
    return { finding: finding('record.not-text', '', { byte: String(at + 1) }) };
  }
}

/** Reads YAML or JSON text within bounds, keeping the position of every value. */
export function readText(text: string): ReadText {
  const size = Buffer.byteLength(text);
  if (size > MAX_BYTES)
    return failed([finding('record.too-big', '', { size: String(size), limit: String(MAX_BYTES) })]);
  if (nestsTooDeep(text)) return failed([tooDeep()]);
  const lines = new LineCounter();
  let document: Document.Parsed;
  try {
    document = parseDocument(text, {
      lineCounter: lines,
      uniqueKeys: true,
      prettyErrors: false,
      strict: true,
    });
  } catch (error) {
    if (error instanceof RangeError) return failed([tooDeep()]);
    throw error;
  }
  const problems = document.errors.map(error => {
    const at = position(lines, error.pos[0]);
    if (error.code === 'DUPLICATE_KEY') {
      const key = text.slice(error.pos[0], error.pos[1]).split(':')[0]?.trim() ?? '';
      return finding('record.duplicate-key', '', { key: key.slice(0, 60) }, at);
    }
    return finding(
      'record.not-yaml',
      '',
      { why: `${error.message.replace(/\s+/g, ' ').slice(0, 200)}.` },
      at,
    );
  });
  if (problems.length > 0) return failed(problems);
  return walk(document, lines);
}

const failed = (findings: readonly Finding[]): ReadText => ({ findings, locate: () => undefined });
const tooDeep = () => finding('record.too-deep', '', { limit: String(MAX_DEPTH) });

function position(lines: LineCounter, offset: number): Position {
  const { line, col } = lines.linePos(offset);
  return { line: Math.max(line, 1), column: Math.max(col, 1) };
}

/** Counts brackets and block dashes before parsing, so that a hostile file never reaches the recursive parser. */
function nestsTooDeep(text: string): boolean {
  let open = 0;
  for (const char of text) {
    if (char === '[' || char === '{') open++;
    else if (char === ']' || char === '}') open = Math.max(0, open - 1);
    if (open > 200) return true;
  }
  return /^[ ]*(?:- ){40,}/m.test(text) || /^ {400,}\S/m.test(text);
}

/** Turns the document into plain data and notes where each path stands. */
function walk(document: Document.Parsed, lines: LineCounter): ReadText {
  const places = new Map<string, Position>();
  const findings: Finding[] = [];
  const at = (node: { range?: readonly number[] | null }): Position => position(lines, node.range?.[0] ?? 0);
  const report = (found: Finding) => {
    findings.push(found);
    return undefined;
  };

  const visit = (
    node: Node | null | undefined,
    path: readonly PropertyKey[],
    name: string,
  ): Tree | undefined => {
    const where = pathText(path);
    if (path.length > MAX_DEPTH) return report(tooDeep());
    if (node === null || node === undefined)
      return report(finding('record.empty-value', where, { key: name }, places.get(where)));
    if (!places.has(where)) places.set(where, at(node));
    const marked = isAlias(node)
      ? `*${node.source}`
      : node.anchor
        ? `&${node.anchor}`
        : node.tag && !isPlainTag(node.tag)
          ? node.tag
          : undefined;
    if (marked) return report(finding('record.alias', where, { what: marked }, at(node)));
    if (isMap(node)) return visitMap(node.items, path);
    if (isSeq(node)) {
      return node.items.flatMap((item, index) => {
        const value = visit(item as Node | null, [...path, index], `item ${index + 1}`);
        return value === undefined ? [] : [value];
      });
    }
    if (!isScalar(node)) return undefined;
    if (node.value === null) return report(finding('record.empty-value', where, { key: name }, at(node)));
    if (typeof node.value === 'boolean') return node.value;
    // The source of a plain number keeps its digits; quoted text has no need of it.
    return typeof node.value === 'string' ? node.value : (node.source ?? String(node.value));
  };

  const visitMap = (
    items: readonly { key: unknown; value: unknown }[],
    path: readonly PropertyKey[],
  ): Tree => {
    const entries: [string, Tree][] = [];
    for (const pair of items) {
      const keyNode = pair.key as Node | null;
      const name = isScalar(keyNode) ? String(keyNode.source ?? keyNode.value) : '';
      const here = [...path, name];
      const spot = keyNode ? at(keyNode) : undefined;
      if (name === '<<' || !isScalar(keyNode)) {
        report(finding('record.alias', pathText(path), { what: name || 'a key that is not text' }, spot));
        continue;
      }
      if (FORBIDDEN.has(name)) {
        report(finding('record.forbidden-key', pathText(path), { key: name }, spot));
        continue;
      }
      if (spot) places.set(pathText(here), spot);
      const value = visit(pair.value as Node | null, here, name);
      if (value !== undefined) entries.push([name, value]);
    }
    return Object.fromEntries(entries);
  };

  const tree = visit(document.contents, [], 'the file');
  return {
    ...(tree !== undefined && { tree }),
    findings,
    locate: path => nearestPlace(places, path),
  };
}

const isPlainTag = (tag: string) => tag.startsWith('tag:yaml.org,2002:');

function nearestPlace(places: ReadonlyMap<string, Position>, path: string): Position | undefined {
  let rest = path;
  for (;;) {
    const place = places.get(rest);
    if (place) return place;
    const cut = Math.max(rest.lastIndexOf('.'), rest.lastIndexOf('['));
    if (cut < 0) return places.get('');
    rest = rest.slice(0, cut);
  }
}
