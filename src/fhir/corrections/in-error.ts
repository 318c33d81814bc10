import type { CodeableConcept } from 'fhir/r4.js';
import { verificationCodes } from '../codes/document.js';
import { knownConcept } from '../concept.js';
import type { CaseResource } from '../set.js';
import { divOf } from '../xhtml.js';

/**
 * A resource marked as entered in error, with the reason in its narrative and where its type has a place for one.
 * Content stays: a withdrawal says that it does not hold, it does not hide what was said.
 */
export function inError(resource: CaseResource, reason: string): CaseResource {
  const marked = withStatus(resource, { text: reason });
  const { text } = marked;
  if (!text) return marked;
  const words = divOf(['Entered in error', reason]).replace(/^<div[^>]*>|<\/div>$/g, '');
  return { ...marked, text: { ...text, div: text.div.replace(/^<div[^>]*>/, start => `${start}${words}`) } };
}

function withStatus(resource: CaseResource, reason: CodeableConcept): CaseResource {
  const status = 'entered-in-error' as const;
  switch (resource.resourceType) {
    case 'DocumentReference':
      return { ...resource, status, docStatus: status };
    case 'Procedure':
    case 'MedicationAdministration':
      return {
        ...resource,
        status,
        statusReason: resource.resourceType === 'Procedure' ? reason : [reason],
      } as CaseResource;
    case 'Task':
      return { ...resource, status, statusReason: reason };
    case 'MedicationStatement':
      return { ...resource, status, statusReason: [reason] };
    case 'Condition': {
      // con-5: no clinical status beside entered-in-error.
      const { clinicalStatus: _clinical, ...rest } = resource;
      return { ...rest, verificationStatus: knownConcept(verificationCodes.condition) };
    }
    case 'AllergyIntolerance': {
      // ait-2, likewise.
      const { clinicalStatus: _clinical, ...rest } = resource;
      return { ...rest, verificationStatus: knownConcept(verificationCodes.allergy) };
    }
    case 'BodyStructure':
    case 'PractitionerRole':
      // R4 gives these two no status but whether they are in use.
      return { ...resource, active: false };
    case 'CarePlan':
    case 'CareTeam':
    case 'Composition':
    case 'Consent':
    case 'Device':
    case 'DeviceUseStatement':
    case 'DiagnosticReport':
    case 'Observation':
    case 'ServiceRequest':
    case 'Specimen':
      return { ...resource, status };
    // R4 gives an adverse event no status at all: its narrative says so.
    case 'AdverseEvent':
    case 'Encounter':
    case 'Location':
    case 'Organization':
    case 'Patient':
    case 'Practitioner':
    case 'Provenance':
      return resource;
  }
}
