import type { Bundle } from 'fhir/r4.js';
import type { RegistryDefinition } from '../definition/schema.js';
import type { EntryElements } from '../entry/elements.js';
import { type EntrySystems, fhirEntry } from '../entry/fhir.js';
import { csvBatch } from './csv.js';

/** The text of a batch, in the format of the registry. The same entries give the same bytes. */
export function batchText(
  entries: readonly EntryElements[],
  definition: Pick<RegistryDefinition, 'elements' | 'format'>,
  systems: EntrySystems,
): string {
  const { format } = definition;
  switch (format.kind) {
    case 'csv':
      return csvBatch(entries, definition, format);
    case 'fhir ndjson':
      return entries.map(entry => `${JSON.stringify(fhirEntry(entry, systems))}\n`).join('');
    case 'fhir bundle':
      return `${JSON.stringify(bundleOf(entries, systems))}\n`;
  }
}

/** A batch of updates, each found by the number of its entry: sent twice, it makes nothing twice. */
function bundleOf(entries: readonly EntryElements[], systems: EntrySystems): Bundle {
  return {
    resourceType: 'Bundle',
    type: 'batch',
    entry: entries.map(entry => ({
      resource: fhirEntry(entry, systems),
      request: {
        method: 'PUT',
        url: `DeviceUseStatement?identifier=${encodeURIComponent(`${systems.pseudonymSystem}|${entry.entry}`)}`,
      },
    })),
  };
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
