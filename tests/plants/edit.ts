import { type Document, isMap, isScalar, isSeq, parseDocument } from 'yaml';

/**
 * One change of a case file. Paths are those of findings (`events[3].at`); an entry of a list may also be named by what
 * it holds: `events[do=inflate,device=balloon].at`, `events[do=flush,#2]` for the second of them, `events[last]`.
 */
export interface Edit {
  /** Path to new value; a path that ends in `[+]` appends to its list. */
  readonly set?: Readonly<Record<string, unknown>> | undefined;
  /** Paths to take out. */
  readonly remove?: readonly string[] | undefined;
  /** Path of an entry to the new entry that goes in before it. */
  readonly insert?: Readonly<Record<string, unknown>> | undefined;
  /** Path of a key to the new name of that key. */
  readonly rename?: Readonly<Record<string, string>> | undefined;
  /** Path of an entry to the path of the entry of the same list before which it goes. */
  readonly move?: Readonly<Record<string, string>> | undefined;
  /** Raw text that stands once in the file, to what it becomes: for slips of the keyboard. */
  readonly text?: Readonly<Record<string, string>> | undefined;
}

type Segments = readonly (string | number)[];

/** The base as text with the edit made. Throws where an edit does not apply: a fault of the bank, not of a record. */
export function edited(base: string, edit: Edit): string {
  let source = base;
  for (const [from, to] of Object.entries(edit.text ?? {})) {
    if (source.split(from).length !== 2) throw new Error(`'${from}' does not stand there exactly once`);
    source = source.replace(from, () => to);
  }
  if (!edit.set && !edit.remove && !edit.insert && !edit.rename && !edit.move) return source;
  const document = read(source).clone();
  for (const [path, name] of Object.entries(edit.rename ?? {})) rename(document, path, name);
  for (const [path, value] of Object.entries(edit.set ?? {})) set(document, path, value);
  // All places are looked up before the first is taken out, and taken out from the end.
  const gone = (edit.remove ?? []).map(path => resolve(document, path));
  for (const place of gone.reverse())
    if (!document.deleteIn(place)) throw new Error(`nothing at ${printed(place)} to remove`);
  for (const [path, value] of Object.entries(edit.insert ?? {})) {
    const { list, index } = entryAt(document, path);
    list.items.splice(index, 0, document.createNode(value));
  }
  for (const [path, before] of Object.entries(edit.move ?? {})) {
    const from = entryAt(document, path);
    const target = entryAt(document, before);
    const [item] = from.list.items.splice(from.index, 1);
    target.list.items.splice(target.index > from.index ? target.index - 1 : target.index, 0, item);
  }
  return document.toString({ lineWidth: 0 });
}

/** The paths with every named entry as its number, in the text given. */
export function located(text: string, paths: readonly string[]): string[] {
  return paths.map(path => (isNamed.test(path) ? printed(resolve(read(text), path)) : path));
}

/** An entry that is told by what it holds, or as the last one. */
const isNamed = /\[[^\]\d]/;

/** A base is edited many times in a row. */
let latest: { readonly text: string; readonly document: Document } | undefined;

function read(text: string): Document {
  if (latest?.text !== text) latest = { text, document: parseDocument(text) };
  return latest.document;
}

function set(document: Document, path: string, value: unknown): void {
  const appended = path.endsWith('[+]');
  const place = resolve(document, appended ? path.slice(0, -3) : path);
  if (appended) document.addIn(place, document.createNode(value));
  else document.setIn(place, document.createNode(value));
}

function rename(document: Document, path: string, name: string): void {
  const place = resolve(document, path);
  const parent = document.getIn(place.slice(0, -1));
  const pair = isMap(parent)
    ? parent.items.find(item => keyOf(item.key) === String(place.at(-1)))
    : undefined;
  if (!pair) throw new Error(`no key at ${path}`);
  pair.key = document.createNode(name);
}

function entryAt(document: Document, path: string) {
  const place = resolve(document, path);
  const list = document.getIn(place.slice(0, -1));
  const index = place.at(-1);
  if (!isSeq(list) || typeof index !== 'number') throw new Error(`${path} is no entry of a list`);
  return { list, index };
}

/** Numbers for the entries that are named by what they hold. */
function resolve(document: Document, path: string): Segments {
  const place: (string | number)[] = [];
  for (const [, key, inBrackets] of path.matchAll(/([^.[\]]+)|\[([^\]]+)\]/g)) {
    if (key !== undefined) place.push(key);
    else place.push(entryNumber(document.getIn(place), inBrackets ?? '', path));
  }
  return place;
}

function entryNumber(list: unknown, wanted: string, path: string): number {
  if (/^\d+$/.test(wanted)) return Number(wanted);
  if (!isSeq(list)) throw new Error(`${path}: no list to look in`);
  if (wanted === 'last') return list.items.length - 1;
  const parts = wanted.split(',').map(part => part.trim());
  const nth = Number(parts.find(part => part.startsWith('#'))?.slice(1) ?? 1);
  const fields = parts.filter(part => !part.startsWith('#')).map(part => part.split('='));
  const found = [...list.items.keys()].filter(index =>
    fields.every(([name = '', value]) => {
      const item = list.items[index];
      return isMap(item) && String(item.get(name)) === value;
    }),
  );
  const number = found[nth - 1];
  if (number === undefined) throw new Error(`${path}: no such entry`);
  return number;
}

const keyOf = (key: unknown) => String(isScalar(key) ? key.value : key);

function printed(place: Segments): string {
  return place
    .map((part, i) => (typeof part === 'number' ? `[${part}]` : `${i > 0 ? '.' : ''}${part}`))
    .join('');
}
