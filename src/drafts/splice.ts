import { isCollection, isMap, isPair, isSeq, type Pair, parseDocument } from 'yaml';
import { afterKey, inline, type Style } from '../intake/write/render.js';
import { endOf, isJson, Places, pairOf, type Splice, startOf, withSplices } from '../intake/write/splice.js';
import type { Change, Path } from './changes.js';

/**
 * Makes changes in a text and leaves every other sign as it stands.
 * @returns undefined where the text has another form than any that can be changed; the caller reads what was made again
 */
export function changedText(text: string, changes: readonly Change[]): string | undefined {
  const document = parseDocument(text, { uniqueKeys: false, prettyErrors: false });
  const root = document.contents;
  if (document.errors.length > 0 || !isMap(root)) return undefined;
  const places = new Places(text, root, isJson(text));
  const removals = new Removals(text, places);
  const splices: Splice[] = [];
  for (const change of changes) {
    if (change.kind === 'remove') {
      removals.add(change.path);
      continue;
    }
    const splice = spliceOf(text, places, change);
    if (!splice) return undefined;
    splices.push(splice);
  }
  const removed = removals.splices();
  return removed && withSplices(text, [...splices, ...removed]);
}

function spliceOf(
  text: string,
  places: Places,
  change: Exclude<Change, { kind: 'remove' }>,
): Splice | undefined {
  const { path, value } = change;
  if (change.kind === 'field') return places.of({ ...change, kind: 'field' });
  const node = places.nodeAt(path);
  if (change.kind === 'set') {
    if (path.length === 0) return undefined;
    return typeof value === 'object' || isCollection(node)
      ? replaced(text, places, change)
      : places.of({ kind: 'text', path, value });
  }
  if (!isSeq(node)) return undefined;
  if (change.before >= node.items.length) return places.of({ kind: 'entry', path, value });
  const depth = path.length;
  const next = node.items[change.before];
  const start = startOf(next);
  if (start === undefined) return undefined;
  if (node.flow) return { at: start, to: start, text: `${inline(value, styleOf(text))}, `, depth };
  const previous = node.items[change.before - 1];
  const head = dashBefore(text, start);
  if (head === undefined || !isOwnLine(text, head)) return undefined;
  const at = previous === undefined ? lineStart(text, head) : lineEnd(text, endOf(previous));
  const indent = text.slice(lineStart(text, head), head);
  return { at, to: at, text: `${indent}- ${inline(value, 'braces')}\n`, depth };
}

const styleOf = (text: string): Style => (isJson(text) ? 'json' : 'braces');

/** Another value in the place of a list, a group, or of text by one of these. */
function replaced(
  text: string,
  places: Places,
  { path, value }: Extract<Change, { kind: 'set' }>,
): Splice | undefined {
  const node = places.nodeAt(path);
  const start = startOf(node);
  if (start === undefined) return undefined;
  const end = endOf(node);
  const break_ = text[end - 1] === '\n' && end > start ? '\n' : '';
  const depth = path.length;
  const parent = places.nodeAt(path.slice(0, -1));
  const last = path.at(-1);
  const pair = isMap(parent) && !parent.flow && typeof last === 'string' ? pairOf(parent, last) : undefined;
  const key = pair && startOf(pair);
  if (pair && key !== undefined) {
    const colon = text.indexOf(':', endOf(pair.key)) + 1;
    const column = key - lineStart(text, key);
    if (colon > 0 && colon <= start && /^\s*$/.test(text.slice(colon, start)))
      return { at: colon, to: end, text: afterKey(value, 'block', ' '.repeat(column)) + break_, depth };
  }
  return { at: start, to: end, text: inline(value, styleOf(text)) + break_, depth };
}

/** What is taken out, container by container: what goes beside each other goes at one go. */
class Removals {
  private readonly text: string;
  private readonly places: Places;
  private readonly byContainer = new Map<string, { path: Path; last: Set<string | number> }>();

  constructor(text: string, places: Places) {
    this.text = text;
    this.places = places;
  }

  add(path: Path): void {
    const container = path.slice(0, -1);
    const name = JSON.stringify(container);
    const there = this.byContainer.get(name) ?? { path: container, last: new Set() };
    there.last.add(path.at(-1) ?? '');
    this.byContainer.set(name, there);
  }

  splices(): Splice[] | undefined {
    const all: Splice[] = [];
    for (const { path, last } of this.byContainer.values()) {
      const container = this.places.nodeAt(path);
      if (!isMap(container) && !isSeq(container)) return undefined;
      const items = container.items as unknown[];
      const gone = items.map((item, i) => last.has(isPair(item) ? nameOf(item) : i));
      if (!gone.includes(false)) return undefined;
      for (const [from, to] of runsOf(gone)) {
        const cut = container.flow ? this.fromBraces(items, from, to) : this.fromLines(items, from, to);
        if (!cut) return undefined;
        all.push(...cut.map(([at, end]) => ({ at, to: end, text: '', depth: path.length })));
      }
    }
    return all;
  }

  private fromBraces(items: readonly unknown[], from: number, to: number): [number, number][] | undefined {
    const [start, next] = [startOf(items[from]), items[to]];
    if (next !== undefined) {
      const after = startOf(next);
      return start === undefined || after === undefined ? undefined : [[start, after]];
    }
    return from === 0 ? undefined : [[endOf(items[from - 1]), endOf(items[to - 1])]];
  }

  private fromLines(items: readonly unknown[], from: number, to: number): [number, number][] | undefined {
    const cuts: [number, number][] = [];
    for (let i = from; i < to; i += 1) {
      const head = this.head(items[i]);
      if (head === undefined) return undefined;
      if (isOwnLine(this.text, head)) {
        cuts.push([lineStart(this.text, head), lineEnd(this.text, endOf(items[i]))]);
        continue;
      }
      // The first of a group that begins behind a dash: what follows takes its place.
      const next = items[to] === undefined ? undefined : this.head(items[to]);
      return i === 0 && next !== undefined ? [[head, next]] : undefined;
    }
    return cuts;
  }

  /** Where an item begins: its key, or the dash before it. */
  private head(item: unknown): number | undefined {
    const start = startOf(item);
    if (isPair(item) || start === undefined) return start;
    return dashBefore(this.text, start);
  }
}

/** Where something begins and ends that is true without a gap; the end is not part of it. */
function runsOf(flags: readonly boolean[]): [number, number][] {
  const runs: [number, number][] = [];
  for (const [i, flag] of flags.entries()) {
    const run = runs.at(-1);
    if (flag && run?.[1] === i) run[1] = i + 1;
    else if (flag) runs.push([i, i + 1]);
  }
  return runs;
}

function nameOf({ key }: Pair): string {
  const { source, value } = (key ?? {}) as { source?: unknown; value?: unknown };
  return String(source ?? value);
}

function dashBefore(text: string, start: number): number | undefined {
  const at = text.lastIndexOf('-', start - 1);
  return at >= 0 && /^-\s+$/.test(text.slice(at, start)) ? at : undefined;
}

const lineStart = (text: string, at: number): number => text.lastIndexOf('\n', at - 1) + 1;

const isOwnLine = (text: string, at: number): boolean => /^[ \t]*$/.test(text.slice(lineStart(text, at), at));

/** Behind the end of the line in which something ends. */
function lineEnd(text: string, end: number): number {
  if (text[end - 1] === '\n') return end;
  const at = text.indexOf('\n', end);
  return at < 0 ? text.length : at + 1;
}
