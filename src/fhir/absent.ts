import type { Extension } from 'fhir/r4.js';

/** Says that an element which FHIR or a profile asks for was not recorded, in place of making it up. */
export function notRecorded(): { extension: Extension[] } {
  return {
    extension: [{ url: 'http://hl7.org/fhir/StructureDefinition/data-absent-reason', valueCode: 'unknown' }],
  };
}
