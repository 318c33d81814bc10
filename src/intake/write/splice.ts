import {
  isCollection,
  isMap,
  isPair,
  isScalar,
  isSeq,
  type Node,
  type Pair,
  parseDocument,
  type YAMLMap,
  type YAMLSeq,
} from 'yaml';
import { fieldOrder } from '../fields.js';
import type { Difference } from './differences.js';
import { afterKey, inline, keyText, type Style } from './render.js';

/** Text that goes in at a place, or takes the place of what stands there. */
export interface Splice {
  readonly at: number;
  readonly to: number;
  readonly text: string;
  /** Where several begin at one place, what lies further in comes first. */
  readonly depth: number;
}

/** A remark for people, under the section that it is about. */
export interface Remark {
  readonly section: string;
  readonly text: string;
}

/**
 * Puts differences and remarks into a text and leaves every other sign as it stands.
 * @returns undefined where the text has another form than any that can be added to
 */
export function spliced(
  text: string,
  changes: readonly Difference[],
  remarks: readonly Remark[],
): string | undefined {
  const json = isJson(text);
  const document = parseDocument(text, { uniqueKeys: false, prettyErrors: false });
  const root = document.contents;
  if (document.errors.length > 0 || !isMap(root)) return undefined;
  const place = new Places(text, root, json);
  const splices: Splice[] = [];
  for (const change of changes) {
    const splice = place.of(change);
    if (!splice) return undefined;
    splices.push(splice);
  }
  if (!json) splices.push(...remarks.flatMap(remark => place.remark(remark)));
  return withSplices(text, splices);
}

/** What goes in before something is put before what takes that away. */
const takes = ({ at, to }: Splice): number => (to > at ? 1 : 0);

/** Puts all splices into a text; undefined where two of them overlap. */
export function withSplices(text: string, splices: readonly Splice[]): string | undefined {
  const ends = /\r\n/.test(text) ? '\r\n' : '\n';
  const sorted = splices
    .map((splice, order) => ({ ...splice, order }))
    .sort((a, b) => a.at - b.at || takes(a) - takes(b) || b.depth - a.depth || a.order - b.order);
  let out = '';
  let done = 0;
  for (const { at, to, text: added } of sorted) {
    if (at < done) return undefined;
    out += text.slice(done, at) + added.replace(/\n/g, ends);
    done = to;
  }
  return out + text.slice(done);
}

export function isJson(text: string): boolean {
  if (!/^\s*\{/.test(text)) return false;
  try {
    JSON.parse(text);
    return true;
  } catch {
    return false;
  }
}

/** Where things stand in a text, and where others go. */
export class Places {
  private readonly text: string;
  private readonly root: YAMLMap;
  private readonly json: boolean;
  /** Empty braces that something goes into already. */
  private readonly filled = new Set<unknown>();

  constructor(text: string, root: YAMLMap, json: boolean) {
    this.text = text;
    this.root = root;
    this.json = json;
  }

  of(change: Difference): Splice | undefined {
    const node = this.nodeAt(change.path);
    const depth = change.path.length;
    if (change.kind === 'text') {
      if (!isScalar(node) || !node.range) return undefined;
      const [at, to] = node.range;
      const block = this.text.slice(at, to).endsWith('\n') ? '\n' : '';
      return { at, to, text: inline(change.value, this.flowStyle()) + block, depth };
    }
    if (change.kind === 'entry') return isSeq(node) ? this.entry(node, change.value, depth) : undefined;
    return isMap(node) ? this.field(node, change, depth) : undefined;
  }

  /** A remark stands at the end of its section, or where the section would be. */
  remark({ section, text }: Remark): Splice[] {
    if (this.root.flow) return [];
    const pair = pairOf(this.root, section);
    const value = pair?.value;
    const inside = isCollection(value) && !value.flow && value.items.length > 0;
    const after = pair ?? this.before(section);
    if (!after) return [];
    const indent = ' '.repeat(
      inside ? this.columnOf(startOf(value) ?? 0) : this.columnOf(startOf(after) ?? 0),
    );
    return [this.lines(endOf(after), `${indent}# ${text}`, inside ? 0.5 : pair ? 0.25 : -1)];
  }

  private flowStyle(): Style {
    return this.json ? 'json' : 'braces';
  }

  nodeAt(path: readonly (string | number)[]): unknown {
    return path.reduce<unknown>((here, step) => {
      if (isMap(here) && typeof step === 'string') return pairOf(here, step)?.value;
      return isSeq(here) && typeof step === 'number' ? here.items[step] : undefined;
    }, this.root);
  }

  private field(map: YAMLMap, { key, value }: Extract<Difference, { kind: 'field' }>, depth: number) {
    const empty = pairOf(map, key);
    if (empty) return this.fill(empty, inline(value, this.flowStyle()), depth);
    const style = map.flow ? this.flowStyle() : 'block';
    if (map.flow) return this.inBraces(map, `${keyText(key, style)}: ${inline(value, style)}`, depth);
    const after = depth === 0 ? this.before(key) : map.items.at(-1);
    const first = map.items[0];
    if (!after || !first) return undefined;
    const indent = ' '.repeat(this.columnOf(startOf(first) ?? 0));
    return this.lines(
      endOf(after),
      `${indent}${keyText(key, style)}:${afterKey(value, style, indent)}`,
      depth,
    );
  }

  /** A field that stands there without a value gets it on its line, before what is remarked about it. */
  private fill({ value }: Pair, text: string, depth: number): Splice | undefined {
    if (!isScalar(value) || value.value !== null || !value.range) return undefined;
    const [at, to] = value.range;
    const before = /\s$/.test(this.text.slice(0, at)) ? '' : ' ';
    const after = this.text[to] === '#' ? ' ' : '';
    return { at, to, text: `${before}${text}${after}`, depth };
  }

  private entry(list: YAMLSeq, value: Parameters<typeof inline>[0], depth: number): Splice | undefined {
    if (list.flow) return this.inBraces(list, inline(value, this.flowStyle()), depth);
    const last = list.items.at(-1) as Node | undefined;
    if (!last || !list.range) return undefined;
    const indent = ' '.repeat(this.columnOf(list.range[0]));
    return this.lines(endOf(last), `${indent}- ${inline(value, 'braces')}`, depth);
  }

  private inBraces(node: YAMLMap | YAMLSeq, text: string, depth: number): Splice | undefined {
    const last = node.items.at(-1) as Node | Pair | undefined;
    if (!node.range) return undefined;
    if (!last) {
      const at = node.range[0] + 1;
      const more = this.filled.has(node) ? ', ' : isMap(node) ? ' ' : '';
      this.filled.add(node);
      return { at, to: at, text: `${more}${text}${isMap(node) ? ' ' : ''}`, depth };
    }
    const at = endOf(last);
    const start = startOf(last) ?? 0;
    const line = this.text.slice(this.lineStart(start), start);
    const gap = /^\s+$/.test(line) ? `\n${line}` : ' ';
    return { at, to: at, text: `,${gap}${text}`, depth };
  }

  /** Whole lines after the line in which something ends. */
  private lines(end: number, text: string, depth: number): Splice {
    const next = this.text[end - 1] === '\n' ? end : this.text.indexOf('\n', end) + 1;
    if (next > 0) return { at: next, to: next, text: `${text}\n`, depth };
    const at = this.text.length;
    return { at, to: at, text: `\n${text}`, depth };
  }

  /** The section after which one that is missing goes, in the order of the format. */
  private before(section: string): Pair | undefined {
    const rank = fieldOrder.indexOf(section);
    const earlier = this.root.items.filter(pair => fieldOrder.indexOf(nameOf(pair)) < rank);
    return earlier.toSorted((a, b) => endOf(a) - endOf(b)).at(-1) ?? this.root.items.at(-1);
  }

  private lineStart(at: number): number {
    return this.text.lastIndexOf('\n', at - 1) + 1;
  }

  private columnOf(at: number): number {
    return at - this.lineStart(at);
  }
}

function nameOf({ key }: Pair): string {
  return isScalar(key) ? String(key.source ?? key.value) : '';
}

export const pairOf = (map: YAMLMap, name: string): Pair | undefined =>
  map.items.find(pair => nameOf(pair) === name);

export function startOf(node: unknown): number | undefined {
  if (isPair(node)) return startOf(node.key);
  return (node as Node | null)?.range?.[0];
}

/** Where the last sign of a node stands, remarks behind it left out. */
export function endOf(node: unknown): number {
  if (isPair(node)) return Math.max(endOf(node.key), endOf(node.value));
  if (isCollection(node) && !node.flow) return Math.max(0, ...node.items.map(endOf));
  return (node as Node | null)?.range?.[1] ?? 0;
}
