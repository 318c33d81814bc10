import { mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { gunzipSync } from 'node:zlib';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { packageBytes } from '../../scripts/profiles/package.js';
import { isProfile, type Raw, sources, version } from '../../scripts/profiles/source.js';
import {
  addPackage,
  createValidator,
  listPackages,
  loadDefinitions,
  loadPackages,
  readPackage,
} from '../../src/conformance/index.js';
import { readTar } from '../../src/conformance/packages/tar.js';
import { allExamples } from './validators.js';

const folder = mkdtempSync(join(tmpdir(), 'casetally-profiles-'));
const path = join(folder, 'casetally.profiles.tgz');
let files: Map<string, string>;

beforeAll(() => {
  const bytes = packageBytes();
  writeFileSync(path, bytes);
  files = new Map(readTar(gunzipSync(bytes)).map(file => [file.name, new TextDecoder().decode(file.bytes)]));
});
afterAll(() => rmSync(folder, { recursive: true }));

const json = (name: string): Raw => JSON.parse(files.get(name) ?? 'null');
const inPackage = () => [...files.keys()].filter(name => /^package\/[A-Z][^/]+\.json$/.test(name));

describe('the package of the profiles', () => {
  it('is the same at each packing', () => {
    expect(Buffer.compare(packageBytes(), readFileSync(path))).toBe(0);
  });

  // FHIR package specification, manifest: name, version, fhirVersions, dependencies with exact versions.
  it('has a manifest that names the packages it stands on, in the versions that are installed', () => {
    const {
      name,
      version: packed,
      fhirVersions,
      dependencies,
    } = json('package/package.json') as Record<string, unknown>;
    expect({ name, packed, fhirVersions }).toEqual({
      name: 'casetally.profiles',
      packed: version(),
      fhirVersions: ['4.0.1'],
    });
    for (const [needed, exact] of Object.entries(dependencies as Record<string, string>)) {
      const installed = readFileSync(
        new URL(`../../node_modules/${needed}/package.json`, import.meta.url),
        'utf8',
      );
      expect([needed, exact]).toEqual([needed, (JSON.parse(installed) as { version: string }).version]);
    }
  });

  it('has an index that says what each file holds', () => {
    const { files: rows } = json('package/.index.json') as unknown as { files: Record<string, string>[] };
    expect(rows.map(row => `package/${row['filename']}`).sort()).toEqual(inPackage().sort());
    for (const { filename, ...said } of rows) expect(json(`package/${filename}`)).toMatchObject(said);
  });

  it('lists everything in its guide', () => {
    const guide = json('package/ImplementationGuide-casetally.profiles.json');
    const { resource } = guide['definition'] as { resource: { reference: { reference: string } }[] };
    const listed = resource.map(row => row.reference.reference);
    const held = [...files.keys()]
      .map(name => /\/([A-Z][A-Za-z]+)-([^/]+)\.json$/.exec(name))
      .flatMap(found => (found && found[1] !== 'ImplementationGuide' ? [`${found[1]}/${found[2]}`] : []));
    expect(listed.sort()).toEqual(held.sort());
  });

  it('gives each structure a whole snapshot', () => {
    for (const { url } of sources().filter(isProfile)) {
      const structure = json(`package/StructureDefinition-${url.slice(url.lastIndexOf('/') + 1)}.json`);
      const { element } = structure['snapshot'] as { element: Record<string, unknown>[] };
      const lacking = element.filter(e => ['id', 'path', 'min', 'max', 'base'].some(part => !(part in e)));
      expect(lacking.map(e => e['id'])).toEqual([]);
      expect(new Set(element.map(e => e['id'])).size).toBe(element.length);
    }
  });

  // R4's own rules for StructureDefinition, ValueSet, CodeSystem …, checked by the published definitions.
  it('holds conformance resources that conform to R4', () => {
    const validator = createValidator(loadDefinitions());
    const faults = inPackage().flatMap(name =>
      validator
        .validateText(files.get(name) ?? '')
        .issues.filter(({ severity }) => severity === 'error' || severity === 'fatal')
        .map(issue => `${name} ${issue.key ?? issue.rule} ${issue.path} ${issue.message}`),
    );
    expect(faults).toEqual([]);
  });

  it('loads from the file and from a cache, with nothing missing', () => {
    const { source, dependencies } = readPackage(path);
    expect(source).toMatchObject({ name: 'casetally.profiles', version: version() });
    expect(Object.keys(dependencies)).toContain('hl7.fhir.uv.ips');
    const cache = join(folder, 'cache');
    addPackage(path, cache);
    expect(listPackages(cache)).toMatchObject([{ name: 'casetally.profiles', version: version() }]);
    const loaded = loadPackages(loadDefinitions(), [path]);
    expect(loaded.missing).toEqual([]);
    const validator = createValidator(loaded.definitions);
    for (const { text, profile } of allExamples()) {
      const { issues, evaluated } = validator.validateText(text);
      expect(evaluated.profiles).toContain(`${profile}|${version()}`);
      expect(issues.filter(({ severity }) => severity === 'error' || severity === 'fatal')).toEqual([]);
    }
  });
});
