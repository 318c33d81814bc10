import type { CodeSystem, Structure, ValueSet } from './model.js';

/** Where definitions came from. */
export interface PackageSource {
  readonly name: string;
  readonly version: string;
  readonly license?: string;
}

/** One definition, read when it is first asked for. */
export interface Entry<T> {
  readonly url: string;
  readonly version: string;
  readonly get: () => T;
}

/** The facts of a structure that are known without reading it. */
export interface StructureEntry extends Entry<Structure> {
  readonly type: string;
}

export interface Shelf {
  readonly sources: readonly PackageSource[];
  readonly structures: readonly StructureEntry[];
  readonly valueSets: readonly Entry<ValueSet>[];
  readonly codeSystems: readonly Entry<CodeSystem>[];
}

const TYPE_BASE = 'http://hl7.org/fhir/StructureDefinition/';

/** All definitions a validator knows, by canonical address; several versions of one may stand side by side. */
export class Definitions {
  readonly sources: readonly PackageSource[];
  private readonly shelves: readonly Shelf[];
  private readonly structures: Index<Structure>;
  private readonly valueSets: Index<ValueSet>;
  private readonly codeSystems: Index<CodeSystem>;

  constructor(shelves: readonly Shelf[]) {
    this.shelves = shelves;
    this.sources = shelves.flatMap(s => s.sources);
    this.structures = indexOf(shelves.map(s => s.structures));
    this.valueSets = indexOf(shelves.map(s => s.valueSets));
    this.codeSystems = indexOf(shelves.map(s => s.codeSystems));
  }

  /** The same definitions with one package more; what it holds wins over an equal address and version. */
  with(shelf: Shelf): Definitions {
    return new Definitions([...this.shelves, shelf]);
  }

  /** The same definitions with those whose address begins with `from` under `to` in its place, and what refers to them. */
  moved(from: string, to: string): Definitions {
    return from === to ? this : new Definitions(this.shelves.map(shelf => movedShelf(shelf, from, to)));
  }

  /**
   * Structure of `canonical`. With `|version` only that version is taken, unless `lenient`, which falls
   * back to the newest: base types are referred to with the version of the release.
   */
  structure(canonical: string, lenient = false): Structure | undefined {
    return pick(this.structures, canonical, lenient)?.get();
  }

  /** Structure of the R4 type `name`. */
  type(name: string): Structure | undefined {
    return pick(this.structures, name.includes('/') ? name : TYPE_BASE + name, true)?.get();
  }

  /** All loaded versions of the structure at `url`. */
  versions(url: string): readonly Structure[] {
    return (this.structures.get(url) ?? []).map(e => e.get());
  }

  valueSet(canonical: string): ValueSet | undefined {
    return pick(this.valueSets, canonical, true)?.get();
  }

  /** Address and version of the value set that `canonical` leads to, without reading it. */
  valueSetId(canonical: string): string {
    const entry = pick(this.valueSets, canonical, true);
    return entry ? `${entry.url}|${entry.version}` : canonical;
  }

  codeSystem(canonical: string): CodeSystem | undefined {
    return pick(this.codeSystems, canonical, true)?.get();
  }

  /** Addresses of all structures, in the order they were loaded. */
  structureUrls(): readonly string[] {
    return [...this.structures.keys()];
  }
}

function movedShelf({ sources, structures, valueSets, codeSystems }: Shelf, from: string, to: string): Shelf {
  const moved = <T, E extends Entry<T>>(entry: E): E =>
    entry.url.startsWith(from)
      ? {
          ...entry,
          url: to + entry.url.slice(from.length),
          get: once(() => JSON.parse(JSON.stringify(entry.get()).replaceAll(`"${from}`, `"${to}`)) as T),
        }
      : entry;
  return {
    sources,
    structures: structures.map(entry => moved<Structure, StructureEntry>(entry)),
    valueSets: valueSets.map(entry => moved<ValueSet, Entry<ValueSet>>(entry)),
    codeSystems: codeSystems.map(entry => moved<CodeSystem, Entry<CodeSystem>>(entry)),
  };
}

/** Makes a value at the first call and keeps it. */
export function once<T>(make: () => T): () => T {
  let made: { readonly value: T } | undefined;
  return () => {
    made ??= { value: make() };
    return made.value;
  };
}

type Index<T> = ReadonlyMap<string, readonly Entry<T>[]>;

function indexOf<T>(shelves: readonly (readonly Entry<T>[])[]): Index<T> {
  const index = new Map<string, Entry<T>[]>();
  for (const shelf of shelves) {
    for (const entry of shelf) {
      const known = index.get(entry.url);
      if (known) known.push(entry);
      else index.set(entry.url, [entry]);
    }
  }
  for (const entries of index.values()) {
    // Sorting is stable: of equal versions the one loaded last stays last.
    if (entries.length > 1) entries.sort((a, b) => compareVersions(a.version, b.version));
  }
  return index;
}

function pick<T>(index: Index<T>, canonical: string, lenient: boolean): Entry<T> | undefined {
  const bar = canonical.indexOf('|');
  const entries = index.get(bar < 0 ? canonical : canonical.slice(0, bar));
  if (!entries) return undefined;
  const newest = entries[entries.length - 1];
  if (bar < 0) return newest;
  const version = canonical.slice(bar + 1);
  // `|4.0` names every 4.0.x, as canonical matching allows a partial version.
  const named = entries.findLast(e => e.version === version || e.version.startsWith(`${version}.`));
  return named ?? (lenient ? newest : undefined);
}

/** Orders versions by their numbers; a pre-release (`5.3.0-ballot`) comes before its release. */
export function compareVersions(a: string, b: string): number {
  const [coreA = '', preA] = split(a);
  const [coreB = '', preB] = split(b);
  const numbersA = coreA.split('.');
  const numbersB = coreB.split('.');
  for (let i = 0; i < Math.max(numbersA.length, numbersB.length); i += 1) {
    const difference = (Number(numbersA[i] ?? 0) || 0) - (Number(numbersB[i] ?? 0) || 0);
    if (difference !== 0) return difference;
  }
  if (preA === preB) return 0;
  if (preA === undefined) return 1;
  if (preB === undefined) return -1;
  return preA < preB ? -1 : 1;
}

function split(version: string): string[] {
  const dash = version.indexOf('-');
  return dash < 0 ? [version] : [version.slice(0, dash), version.slice(dash + 1)];
}
