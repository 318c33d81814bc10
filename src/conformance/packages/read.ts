import { existsSync, readdirSync, readFileSync, statSync } from 'node:fs';
import { basename, join } from 'node:path';
import { gunzipSync } from 'node:zlib';
import { CasetallyError } from '../../findings/errors.js';
import type { PackageSource, Shelf } from '../definitions/definitions.js';
import { shelfOf } from './shelf.js';
import { readTar } from './tar.js';

/** A FHIR package, read. */
export interface FhirPackage {
  readonly source: PackageSource;
  /** Names and versions of what it needs. */
  readonly dependencies: Readonly<Record<string, string>>;
  readonly shelf: Shelf;
}

/** A file of a package, by its name inside the `package` folder. */
export interface PackageFile {
  readonly name: string;
  readonly bytes: Uint8Array;
}

/** Reads a FHIR package: a `.tgz`, a folder with `package.json`, or one with `package/package.json`. */
export function readPackage(path: string): FhirPackage {
  const files = packageFiles(path);
  const manifest = files.find(f => f.name === 'package.json');
  if (!manifest) throw unreadable(path, 'it holds no package.json');
  const { name, version, license, dependencies } = parse(path, manifest) as {
    name?: string;
    version?: string;
    license?: string;
    dependencies?: Record<string, string>;
  };
  if (name === undefined || version === undefined)
    throw unreadable(path, 'its package.json has no name and version');
  const source: PackageSource = { name, version, ...(license !== undefined && { license }) };
  const resources = files.filter(f => f !== manifest && isContent(f.name)).map(f => parse(path, f));
  return { source, dependencies: dependencies ?? {}, shelf: shelfOf(source, resources) };
}

/** The files of a package, without those of its subfolders (examples, schemas). */
export function packageFiles(path: string): PackageFile[] {
  try {
    if (!statSync(path).isDirectory()) {
      return readTar(gunzipSync(readFileSync(path)))
        .filter(f => /^(\.\/)?package\/[^/]+$/.test(f.name))
        .map(f => ({ name: basename(f.name), bytes: f.bytes }));
    }
    const folder = existsSync(join(path, 'package', 'package.json')) ? join(path, 'package') : path;
    return readdirSync(folder, { withFileTypes: true })
      .filter(e => e.isFile())
      .map(e => e.name)
      .sort()
      .map(name => ({ name, bytes: readFileSync(join(folder, name)) }));
  } catch (cause) {
    throw unreadable(path, cause instanceof Error ? cause.message : String(cause), cause);
  }
}

function isContent(name: string): boolean {
  return name.endsWith('.json') && !name.startsWith('.');
}

function parse(path: string, file: PackageFile): unknown {
  try {
    return JSON.parse(new TextDecoder().decode(file.bytes)) as unknown;
  } catch (cause) {
    throw unreadable(path, `${file.name} is not JSON`, cause);
  }
}

function unreadable(path: string, why: string, cause?: unknown): CasetallyError {
  return new CasetallyError('definitions-unreadable', `The FHIR package ${path} cannot be used: ${why}.`, {
    cause,
  });
}
