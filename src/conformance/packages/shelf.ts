import {
  type Entry,
  once,
  type PackageSource,
  type Shelf,
  type StructureEntry,
} from '../definitions/definitions.js';
import type { CodeSystem, ValueSet } from '../definitions/model.js';
import { trimCodeSystem, trimStructure, trimValueSet } from '../definitions/trim.js';

type Raw = Readonly<Record<string, unknown>>;

/**
 * Puts the StructureDefinitions, ValueSets and CodeSystems among `resources` on a shelf for
 * `Definitions.with`. Pure; each is read when it is first needed.
 */
export function shelfOf(source: PackageSource, resources: Iterable<unknown>): Shelf {
  const structures: StructureEntry[] = [];
  const valueSets: Entry<ValueSet>[] = [];
  const codeSystems: Entry<CodeSystem>[] = [];
  for (const resource of resources) {
    if (typeof resource !== 'object' || resource === null) continue;
    const raw = resource as Raw;
    const { url, version } = raw;
    if (typeof url !== 'string') continue;
    const facts = { url, version: typeof version === 'string' ? version : source.version };
    if (raw['resourceType'] === 'StructureDefinition') {
      const type = typeof raw['type'] === 'string' ? raw['type'] : '';
      structures.push({ ...facts, type, get: once(() => trimStructure({ ...raw, version: facts.version })) });
    } else if (raw['resourceType'] === 'ValueSet') {
      valueSets.push({ ...facts, get: once(() => trimValueSet(raw)) });
    } else if (raw['resourceType'] === 'CodeSystem') {
      codeSystems.push({ ...facts, get: once(() => trimCodeSystem(raw)) });
    }
  }
  return { sources: [source], structures, valueSets, codeSystems };
}
