import { existsSync, mkdirSync, readdirSync, renameSync, rmSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import type { Definitions, PackageSource } from '../definitions/definitions.js';
import { compareVersions } from '../definitions/definitions.js';
import type { FhirPackage } from './read.js';
import { packageFiles, readPackage } from './read.js';

/*
 * The usual layout of a FHIR package cache: one folder `name#version` a package, with the content in
 * its folder `package`. Source: the FHIR package specification, package cache.
 */

/** Packages in a cache folder, by name and version. */
export function listPackages(cache: string): PackageSource[] {
  if (!existsSync(cache)) return [];
  return readdirSync(cache)
    .map(folder => /^([^#]+)#(.+)$/.exec(folder))
    .filter(found => found !== null)
    .map(([, name = '', version = '']) => ({ name, version }))
    .sort((a, b) => (a.name < b.name ? -1 : a.name > b.name ? 1 : compareVersions(a.version, b.version)));
}

/** Copies a package (`.tgz` or folder) into a cache folder; the same version is replaced as a whole. */
export function addPackage(path: string, cache: string): PackageSource {
  const { source } = readPackage(path);
  const folder = join(cache, `${source.name}#${source.version}`);
  const draft = `${folder}.part`;
  rmSync(draft, { recursive: true, force: true });
  mkdirSync(join(draft, 'package'), { recursive: true });
  for (const { name, bytes } of packageFiles(path)) writeFileSync(join(draft, 'package', name), bytes);
  rmSync(folder, { recursive: true, force: true });
  renameSync(draft, folder);
  return source;
}

export interface LoadedPackages {
  readonly definitions: Definitions;
  readonly loaded: readonly PackageSource[];
  /** What was asked for, by whom, and is neither built in nor in the cache. */
  readonly missing: readonly { readonly name: string; readonly version: string; readonly neededBy: string }[];
}

/**
 * Adds packages and what they depend on to `definitions`. `wanted` are paths, or `name#version` to be
 * found in `cache`; dependencies come from `cache` too. Reads files: an edge.
 */
export function loadPackages(
  definitions: Definitions,
  wanted: readonly string[],
  cache?: string,
): LoadedPackages {
  const loaded = new Map<string, FhirPackage>();
  const missing: { name: string; version: string; neededBy: string }[] = [];
  const known = cache === undefined ? [] : listPackages(cache);
  const add = (path: string) => {
    const found = readPackage(path);
    const id = `${found.source.name}#${found.source.version}`;
    if (loaded.has(id)) return;
    // Dependencies go below their dependent: what is loaded last wins over an equal address and version.
    loaded.set(id, found);
    for (const [name, version] of Object.entries(found.dependencies)) depend(name, version, id);
  };
  const depend = (name: string, version: string, neededBy: string) => {
    if (isBuiltIn(definitions, name)) return;
    const fits = known.filter(p => p.name === name && matches(p.version, version));
    const best = fits[fits.length - 1];
    if (best && cache !== undefined) add(join(cache, `${name}#${best.version}`));
    else if (!missing.some(m => m.name === name && m.version === version))
      missing.push({ name, version, neededBy });
  };
  for (const one of wanted) {
    const [, name, version] = /^([A-Za-z0-9.-]+)[#@]([^/\\]+)$/.exec(one) ?? [];
    if (name !== undefined && version !== undefined && !existsSync(one)) depend(name, version, 'the command');
    else add(one);
  }
  let result = definitions;
  for (const { shelf } of [...loaded.values()].reverse()) result = result.with(shelf);
  return { definitions: result, loaded: [...loaded.values()].map(p => p.source), missing };
}

/** The base release, and any package whose content is compiled in: a version near it is good enough. */
function isBuiltIn(definitions: Definitions, name: string): boolean {
  return name === 'hl7.fhir.r4.core' || definitions.sources.some(s => s.name === name);
}

/** Versions of package dependencies are exact, or have `x` in place of a number. */
function matches(version: string, asked: string): boolean {
  if (asked === version || asked === 'latest') return true;
  if (!/\.x$/.test(asked)) return false;
  return version.startsWith(asked.replace(/x$/, ''));
}
