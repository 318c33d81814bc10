import { gzipSync } from 'node:zlib';
import { type TarFile, writeTar } from '../../src/conformance/packages/tar.js';
import { profileExamples } from './examples.js';
import { dependencies, guide, pageFolder } from './guide.js';
import { profilePages } from './page.js';
import { snapshots } from './snapshot.js';
import { canonical, isProfile, packageName, published, type Raw, sources, version } from './source.js';

/**
 * The bytes of the FHIR package `casetally.profiles`: conformance resources with snapshots in `package/`, examples in
 * `package/example/`, an index in each, and the pages of the guide. The same sources give the same bytes.
 * Source: FHIR package specification (hl7.org/fhir/packages), layout, manifest and index.
 */
export function packageBytes(): Uint8Array {
  return gzipSync(writeTar(packageFiles()), { level: 9 });
}

/** The files of the package, manifest first. */
export function packageFiles(): TarFile[] {
  const definitions = sources();
  const whole = snapshots(definitions.filter(isProfile));
  const examples = profileExamples();
  const content = [
    ...definitions.map(raw => published(withElements(raw, whole))),
    guide(definitions, examples),
  ];
  const file = (folder: string, name: string, value: object): TarFile => ({
    name: `${folder}/${name}`,
    bytes: text(`${JSON.stringify(value, null, 2)}\n`),
  });
  return [
    file('package', 'package.json', manifest()),
    file('package', '.index.json', index(content)),
    ...content.map(raw => file('package', fileName(raw), raw)),
    file('package/example', '.index.json', index(examples.map(({ resource }) => resource))),
    ...examples.map(({ resource, text: json }) => ({
      name: `package/example/${fileName(resource)}`,
      bytes: text(json),
    })),
    ...[...profilePages(definitions)].map(([name, page]) => ({
      name: `package/${pageFolder}/${name}`,
      bytes: text(page),
    })),
  ];
}

function withElements(raw: Raw, whole: ReadonlyMap<string, unknown>): Raw {
  if (!isProfile(raw)) return raw;
  const { differential, ...rest } = raw;
  return { ...rest, snapshot: { element: whole.get(raw.url) }, differential };
}

function manifest(): object {
  return {
    name: packageName,
    version: version(),
    canonical,
    url: canonical,
    title: 'Casetally profiles',
    description:
      'FHIR R4 profiles of an image-guided case: report, procedures, devices, aftercare, dose, registry entries.',
    type: 'IG',
    license: 'Apache-2.0',
    author: 'Casetally',
    fhirVersions: ['4.0.1'],
    dependencies,
    directories: { lib: 'package', example: 'example', doc: pageFolder },
  };
}

/** What a reader finds without opening the files. */
function index(resources: readonly Raw[]): object {
  return {
    'index-version': 2,
    files: resources.map(raw => ({
      filename: fileName(raw),
      resourceType: raw.resourceType,
      id: raw.id,
      ...picked(raw, 'url', 'version', 'kind', 'type', 'supplements', 'content', 'derivation'),
    })),
  };
}

function picked(raw: Raw, ...names: readonly string[]): Record<string, string> {
  const found: Record<string, string> = {};
  for (const name of names) {
    const value = raw[name];
    if (typeof value === 'string') found[name] = value;
  }
  return found;
}

const fileName = ({ resourceType, id }: Raw) => `${resourceType}-${id}.json`;
const text = (value: string) => new TextEncoder().encode(value);
