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

type Data = { [key: string]: unknown };
type Place = readonly (string | number)[];

/** The base with the slips of the keyboard. Throws where one does not apply: a fault of the bank, not of a record. */
export function spelt(base: string, { text = {} }: Edit): string {
  return Object.entries(text).reduce((source, [from, to]) => {
    if (source.split(from).length !== 2) throw new Error(`'${from}' does not stand there exactly once`);
    return source.replace(from, () => to);
  }, base);
}

/** Whether there is more to an edit than slips of the keyboard. */
export const changesData = ({ set, remove, insert, rename, move }: Edit): boolean =>
  [set, remove, insert, rename, move].some(part => part !== undefined);

/** A copy of what was read with the rest of the edit made. Throws where it does not apply. */
export function edited<T extends object>(base: T, edit: Edit): T {
  const data = structuredClone(base);
  for (const [path, name] of Object.entries(edit.rename ?? {})) rename(data, path, name);
  for (const [path, value] of Object.entries(edit.set ?? {})) set(data, path, value);
  // All places are looked up before the first is taken out, and taken out from the end.
  const gone = (edit.remove ?? []).map(path => resolve(data, path));
  for (const place of gone.reverse()) remove(data, place);
  for (const [path, value] of Object.entries(edit.insert ?? {})) {
    const { list, index } = entryAt(data, path);
    list.splice(index, 0, value);
  }
  for (const [path, before] of Object.entries(edit.move ?? {})) {
    const from = entryAt(data, path);
    const target = entryAt(data, before);
    const [item] = from.list.splice(from.index, 1);
    target.list.splice(target.index > from.index ? target.index - 1 : target.index, 0, item);
  }
  return data;
}

/** The paths with every named entry as its number, in the data given. */
export function located(data: unknown, paths: readonly string[]): string[] {
  return paths.map(path => (isNamed.test(path) ? printed(resolve(data, path)) : path));
}

/** An entry that is told by what it holds, or as the last one. */
const isNamed = /\[[^\]\d]/;

const isData = (value: unknown): value is Data => typeof value === 'object' && value !== null;

const at = (data: unknown, place: Place): unknown =>
  place.reduce<unknown>((here, part) => (isData(here) ? here[part] : undefined), data);

/** The group or list that holds a place, made where there is none. */
function holderOf(data: object, place: Place): Data {
  let here: Data = data as Data;
  for (const [step, part] of place.slice(0, -1).entries()) {
    const next = here[part];
    const group = isData(next) ? next : typeof place[step + 1] === 'number' ? ([] as unknown as Data) : {};
    here[part] = group;
    here = group;
  }
  return here;
}

function set(data: object, path: string, value: unknown): void {
  const appended = path.endsWith('[+]');
  const place = resolve(data, appended ? path.slice(0, -3) : path);
  const list = appended ? at(data, place) : undefined;
  if (Array.isArray(list)) list.push(value);
  else holderOf(data, place)[place.at(-1) ?? ''] = appended ? [value] : value;
}

function remove(data: unknown, place: Place): void {
  const holder = at(data, place.slice(0, -1));
  const last = place.at(-1) ?? '';
  if (!isData(holder) || !Object.hasOwn(holder, last))
    throw new Error(`nothing at ${printed(place)} to remove`);
  if (Array.isArray(holder)) holder.splice(Number(last), 1);
  else delete holder[last];
}

/** The key keeps its place. A name that is there already is for an edit of the text. */
function rename(data: object, path: string, name: string): void {
  const place = resolve(data, path);
  const holder = at(data, place.slice(0, -1));
  const last = String(place.at(-1));
  if (!isData(holder) || !Object.hasOwn(holder, last)) throw new Error(`no key at ${path}`);
  if (Object.hasOwn(holder, name)) throw new Error(`${name} is there beside ${path}`);
  const entries = Object.entries(holder);
  for (const [key] of entries) delete holder[key];
  for (const [key, value] of entries) holder[key === last ? name : key] = value;
}

function entryAt(data: unknown, path: string): { list: unknown[]; index: number } {
  const place = resolve(data, path);
  const list = at(data, place.slice(0, -1));
  const index = place.at(-1);
  if (!Array.isArray(list) || typeof index !== 'number') throw new Error(`${path} is no entry of a list`);
  return { list, index };
}

/** Numbers for the entries that are named by what they hold. */
function resolve(data: unknown, path: string): Place {
  const place: (string | number)[] = [];
  for (const [, key, inBrackets] of path.matchAll(/([^.[\]]+)|\[([^\]]+)\]/g)) {
    if (key !== undefined) place.push(key);
    else place.push(entryNumber(at(data, place), inBrackets ?? '', path));
  }
  return place;
}

function entryNumber(list: unknown, wanted: string, path: string): number {
  if (/^\d+$/.test(wanted)) return Number(wanted);
  if (!Array.isArray(list)) throw new Error(`${path}: no list to look in`);
  if (wanted === 'last') return list.length - 1;
  const parts = wanted.split(',').map(part => part.trim());
  const nth = Number(parts.find(part => part.startsWith('#'))?.slice(1) ?? 1);
  const fields = parts.filter(part => !part.startsWith('#')).map(part => part.split('='));
  const found = [...list.keys()].filter(index =>
    fields.every(([name = '', value]) => {
      const item: unknown = list[index];
      return isData(item) && String(item[name]) === value;
    }),
  );
  const number = found[nth - 1];
  if (number === undefined) throw new Error(`${path}: no such entry`);
  return number;
}

function printed(place: Place): string {
  return place
    .map((part, i) => (typeof part === 'number' ? `[${part}]` : `${i > 0 ? '.' : ''}${part}`))
    .join('');
}
