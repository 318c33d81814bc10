import { execFileSync } from 'node:child_process';
import { mkdirSync, mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import {
  addPackage,
  createValidator,
  listPackages,
  loadPackages,
  readPackage,
} from '../../../src/conformance/index.js';
import { procedure } from '../bases.js';
import { errors, shipped } from '../validators.js';

let folder: string;
const url = 'http://example.org/fhir/StructureDefinition/drain';

function structure(version: string, status: string): object {
  return {
    resourceType: 'StructureDefinition',
    url,
    version,
    name: 'Drain',
    status: 'active',
    kind: 'resource',
    abstract: false,
    type: 'Procedure',
    baseDefinition: 'http://hl7.org/fhir/StructureDefinition/Procedure',
    derivation: 'constraint',
    differential: { element: [{ id: 'Procedure.status', path: 'Procedure.status', fixedCode: status }] },
  };
}

/** Writes a package folder in the layout of npm. */
function write(at: string, manifest: object, files: Readonly<Record<string, unknown>>): string {
  const inside = join(folder, at, 'package');
  mkdirSync(inside, { recursive: true });
  writeFileSync(join(inside, 'package.json'), JSON.stringify(manifest));
  for (const [name, content] of Object.entries(files))
    writeFileSync(join(inside, name), JSON.stringify(content));
  return join(folder, at);
}

beforeAll(() => {
  folder = mkdtempSync(join(tmpdir(), 'packages-'));
  write('one', { name: 'example.drains', version: '1.0.0' }, { 'a.json': structure('1.0.0', 'completed') });
  write('two', { name: 'example.drains', version: '2.0.0' }, { 'a.json': structure('2.0.0', 'stopped') });
  write(
    'top',
    {
      name: 'example.top',
      version: '1.0.0',
      dependencies: { 'example.drains': '1.0.x', 'example.absent': '1.0.0', 'hl7.fhir.r4.core': '4.0.1' },
    },
    {},
  );
});
afterAll(() => rmSync(folder, { recursive: true, force: true }));

describe('reading a package', () => {
  test('a folder and a .tgz made by tar give the same', () => {
    const archive = join(folder, 'one.tgz');
    // Outside source of the archive: the tar of the machine.
    execFileSync('tar', ['-czf', archive, '-C', join(folder, 'one'), 'package']);
    const fromArchive = readPackage(archive);
    expect(fromArchive.source).toEqual({ name: 'example.drains', version: '1.0.0' });
    expect(fromArchive.shelf.structures.map(s => s.get())).toEqual(
      readPackage(join(folder, 'one')).shelf.structures.map(s => s.get()),
    );
  });
  test('a published package of node_modules', () => {
    const ips = readPackage(new URL('../../../node_modules/hl7.fhir.uv.ips', import.meta.url).pathname);
    expect(ips.source).toEqual({ name: 'hl7.fhir.uv.ips', version: '2.0.0', license: 'CC0-1.0' });
    expect(ips.shelf.structures.length).toBeGreaterThan(30);
    expect(ips.dependencies['hl7.terminology.r4']).toBe('6.5.0');
  });
  test('what is no package is a clear error', () => {
    expect(() => readPackage(join(folder, 'nowhere'))).toThrow(/cannot be used/);
    writeFileSync(join(folder, 'bad.tgz'), 'not gzip');
    expect(() => readPackage(join(folder, 'bad.tgz'))).toThrow(/cannot be used/);
  });
});

describe('several versions side by side', () => {
  const verdict = (profile: string, status: string) => {
    const { definitions } = loadPackages(shipped(), [join(folder, 'one'), join(folder, 'two')]);
    const resource = { ...procedure(), status };
    return errors(createValidator(definitions).validateResource(resource, { profiles: [profile] }));
  };
  test('|version picks one', () => {
    expect(verdict(`${url}|1.0.0`, 'completed')).toEqual([]);
    expect(verdict(`${url}|1.0.0`, 'stopped')).toEqual(['fixed Procedure.status']);
    expect(verdict(`${url}|2.0.0`, 'stopped')).toEqual([]);
    expect(verdict(`${url}|2.0.0`, 'completed')).toEqual(['fixed Procedure.status']);
  });
  test('without a version it is the newest', () => {
    expect(verdict(url, 'stopped')).toEqual([]);
  });
  test('a version that is not loaded is an error', () => {
    expect(verdict(`${url}|3.0.0`, 'stopped')).toEqual(['profile-not-loaded Procedure']);
  });
});

describe('a cache folder', () => {
  test('takes packages, lists them, and answers dependencies', () => {
    const cache = join(folder, 'cache');
    expect(listPackages(cache)).toEqual([]);
    expect(addPackage(join(folder, 'two'), cache)).toEqual({ name: 'example.drains', version: '2.0.0' });
    addPackage(join(folder, 'one'), cache);
    addPackage(join(folder, 'one'), cache);
    expect(listPackages(cache)).toEqual([
      { name: 'example.drains', version: '1.0.0' },
      { name: 'example.drains', version: '2.0.0' },
    ]);
    const { loaded, missing, definitions } = loadPackages(shipped(), [join(folder, 'top')], cache);
    expect(loaded.map(p => `${p.name}#${p.version}`)).toEqual(['example.top#1.0.0', 'example.drains#1.0.0']);
    expect(missing).toEqual([{ name: 'example.absent', version: '1.0.0', neededBy: 'example.top#1.0.0' }]);
    expect(definitions.structure(url)?.version).toBe('1.0.0');
    expect(loadPackages(shipped(), ['example.drains#2.0.0'], cache).loaded).toHaveLength(1);
  });
});
