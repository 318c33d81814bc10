import type { Bundle, BundleEntry } from 'fhir/r4.js';
import type { RegistryDefinition } from '../definition/schema.js';
import type { EntryElements } from '../entry/elements.js';
import { type EntrySystems, fhirEntry } from '../entry/fhir.js';
import { csvBatch } from './csv.js';

/** The text of a batch, in the format of the registry. The same entries give the same bytes. */
export const batchText = (
  entries: Iterable<EntryElements>,
  definition: Pick<RegistryDefinition, 'elements' | 'format'>,
  systems: EntrySystems,
): string => [...batchPieces(entries, definition, systems)].join('');

/** The same, piece by piece: it can be larger than any text may be. */
export function* batchPieces(
  entries: Iterable<EntryElements>,
  definition: Pick<RegistryDefinition, 'elements' | 'format'>,
  systems: EntrySystems,
): Generator<string> {
  const { format } = definition;
  switch (format.kind) {
    case 'csv':
      yield* csvBatch(entries, definition, format);
      return;
    case 'fhir ndjson':
      for (const entry of entries) yield `${JSON.stringify(fhirEntry(entry, systems))}\n`;
      return;
    case 'fhir bundle':
      yield* bundleOf(entries, systems);
  }
}

/** A batch of updates, each found by the number of its entry: sent twice, it makes nothing twice. */
function* bundleOf(entries: Iterable<EntryElements>, systems: EntrySystems): Generator<string> {
  const whole: Bundle = { resourceType: 'Bundle', type: 'batch', entry: [] };
  const text = JSON.stringify(whole);
  const end = text.lastIndexOf(']');
  yield text.slice(0, end);
  let between = '';
  for (const entry of entries) {
    const resource = fhirEntry(entry, systems);
    const url = `DeviceUseStatement?identifier=${encodeURIComponent(`${systems.pseudonymSystem}|${entry.entry}`)}`;
    const one: BundleEntry = { resource, request: { method: 'PUT', url } };
    yield `${between}${JSON.stringify(one)}`;
    between = ',';
  }
  yield `${text.slice(end)}\n`;
}

/** Media type of a batch, for its manifest. */
export function mediaTypeOf({ format }: Pick<RegistryDefinition, 'format'>): string {
  switch (format.kind) {
    case 'csv':
      return 'text/csv';
    case 'fhir ndjson':
      return 'application/fhir+ndjson';
    case 'fhir bundle':
      return 'application/fhir+json';
  }
}
