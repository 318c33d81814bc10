/**
 * Compiles what conformance needs of the FHIR packages in node_modules into one file,
 * profiles/compiled/definitions.bin, and records its sources beside it.
 */

import { createHash } from 'node:crypto';
import { mkdirSync, readdirSync, readFileSync, writeFileSync } from 'node:fs';
import { packDefinitions } from '../src/conformance/definitions/container.js';
import { Definitions, type PackageSource } from '../src/conformance/definitions/definitions.js';
import type { CodeSystem, Include, Structure, ValueSet } from '../src/conformance/definitions/model.js';
import { withSnapshot } from '../src/conformance/definitions/snapshot.js';
import { trimCodeSystem, trimStructure, trimValueSet } from '../src/conformance/definitions/trim.js';
import { shelfOf } from '../src/conformance/packages/shelf.js';
import { sources as ownSources, packageName, version } from './profiles/source.js';

const root = new URL('../', import.meta.url);
const out = new URL('profiles/compiled/', root);

/** Later packages do not replace earlier ones: versions stand side by side. */
const packages = [
  'hl7.fhir.r4.examples',
  'hl7.terminology.r4',
  'hl7.fhir.uv.extensions.r4',
  'hl7.fhir.uv.ips',
];

/** Structures that are examples of the examples package or logical models, of no use for checking. */
const skipped =
  /^http:\/\/hl7\.org\/fhir\/(cda|StructureDefinition\/(example|elementdefinition-de-))|^http:\/\/example\.|acme/;

type Raw = Record<string, unknown>;

const sources: PackageSource[] = [];
const structures: Structure[] = [];
const valueSets: ValueSet[] = [];
const codeSystems: CodeSystem[] = [];
const origin = new Map<object, string>();

for (const name of packages) {
  const folder = new URL(`node_modules/${name}/`, root);
  const manifest = read(new URL('package.json', folder));
  sources.push({ name, version: String(manifest['version']), license: String(manifest['license']) });
  for (const file of readdirSync(folder).sort()) {
    if (!/^(StructureDefinition|ValueSet|CodeSystem)-.*\.json$/.test(file)) continue;
    const raw = read(new URL(file, folder));
    if (typeof raw['url'] !== 'string' || skipped.test(raw['url'])) continue;
    if (raw['resourceType'] === 'StructureDefinition' && raw['kind'] !== 'logical') {
      // R4's own SDs carry no version; the release gives it.
      structures.push(trimStructure({ version: manifest['version'], ...raw }));
    } else if (raw['resourceType'] === 'ValueSet') keep(valueSets, trimValueSet(raw), name);
    else if (raw['resourceType'] === 'CodeSystem') keep(codeSystems, trimCodeSystem(raw), name);
  }
}

addOwn();

// R4 carries early copies of the terminology that HL7 Terminology maintains under the same addresses.
const maintained = new Set(
  [...valueSets, ...codeSystems].filter(t => origin.get(t) === 'hl7.terminology.r4').map(t => t.url),
);
const current = <T extends ValueSet | CodeSystem>(all: readonly T[]): T[] =>
  all.filter(t => origin.get(t) !== 'hl7.fhir.r4.examples' || !maintained.has(t.url));

// ISO 4217 is in no package; the published R4 expansion of its value set lists the codes.
const currencies = list(expansions(), 'http://hl7.org/fhir/ValueSet/currencies');
valueSets.splice(
  0,
  valueSets.length,
  ...current(valueSets).map(v => (v.url === currencies.url ? { ...v, include: currencies.include } : v)),
);

const currentSystems = current(codeSystems);
const bytes = packDefinitions({ sources, structures, valueSets, codeSystems: currentSystems });
mkdirSync(out, { recursive: true });
writeFileSync(new URL('definitions.bin', out), bytes);
writeFileSync(
  new URL('sources.json', out),
  `${JSON.stringify(
    {
      file: 'definitions.bin',
      bytes: bytes.length,
      sha256: createHash('sha256').update(bytes).digest('hex'),
      sources,
      counts: {
        structures: structures.length,
        valueSets: valueSets.length,
        codeSystems: currentSystems.length,
      },
    },
    null,
    2,
  )}\n`,
);
writeFileSync(
  new URL('NOTICE.txt', out),
  `The compiled definitions hold the machine-readable parts of these FHIR packages:\n\n${sources
    .map(s => `${s.name} ${s.version}, licence ${s.license}`)
    .join('\n')}\n\nFHIR is a registered trademark of Health Level Seven International.\n`,
);
console.log(
  `profiles/compiled/definitions.bin: ${structures.length} structures, ${valueSets.length} value sets, ` +
    `${currentSystems.length} code systems, ${(bytes.length / 1e6).toFixed(1)} MB`,
);

/** Our own profiles, their snapshots made here so that nobody has to at start-up. */
function addOwn(): void {
  const source = { name: packageName, version: version(), license: 'Apache-2.0' };
  const shelf = shelfOf(source, ownSources());
  const below = structures.map(s => ({ url: s.url, version: s.version ?? '', type: s.type, get: () => s }));
  const definitions = new Definitions([
    { sources, structures: below, valueSets: [], codeSystems: [] },
    shelf,
  ]);
  for (const { url, get } of shelf.structures) {
    const full = withSnapshot(get(), definitions);
    if (!full) throw new Error(`${url} stands on a profile that is in none of the packages`);
    const { differential: _differential, ...rest } = full;
    structures.push(rest);
  }
  for (const { get } of shelf.valueSets) keep(valueSets, get(), packageName);
  for (const { get } of shelf.codeSystems) keep(codeSystems, get(), packageName);
  sources.push(source);
}

function keep<T extends object>(into: T[], item: T, from: string): void {
  into.push(item);
  origin.set(item, from);
}

/** The R4 expansions bundle, whose value sets are given without their definitions. */
function expansions(): Raw[] {
  const bundle = read(new URL('node_modules/hl7.fhir.r4.examples/Bundle-valueset-expansions.json', root));
  return (bundle['entry'] as { resource: Raw }[]).map(e => e.resource);
}

function list(from: readonly Raw[], url: string): ValueSet & { include: readonly Include[] } {
  const found = from.find(v => v['url'] === url);
  const { expansion } = trimValueSet({ ...found, compose: undefined });
  if (!expansion) throw new Error(`The expansions hold no complete list of ${url}`);
  return { url, include: expansion };
}

function read(file: URL): Raw {
  return JSON.parse(readFileSync(file, 'utf8')) as Raw;
}
