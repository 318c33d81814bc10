import type { CapabilityStatement } from '@medplum/fhirtypes';

/** Said on start and in /metadata. */
export const SANDBOX_NOTICE =
  'Embedded FHIR server for trying out and for tests only. It keeps everything in memory, asks nobody who they are and is not for patient data.';

const WRITES: ReadonlySet<string> = new Set(['create', 'update', 'patch', 'delete']);

const RESOURCE_TYPES = [
  'AdverseEvent',
  'AllergyIntolerance',
  'Binary',
  'BodyStructure',
  'Bundle',
  'CarePlan',
  'CareTeam',
  'Composition',
  'Condition',
  'Consent',
  'Device',
  'DeviceUseStatement',
  'DiagnosticReport',
  'DocumentReference',
  'Encounter',
  'ImagingStudy',
  'Location',
  'MedicationAdministration',
  'MedicationStatement',
  'Observation',
  'Organization',
  'Patient',
  'Practitioner',
  'PractitionerRole',
  'Procedure',
  'Provenance',
  'ServiceRequest',
  'Specimen',
  'Task',
] as const;

/** What profiles are made of. */
export const CONFORMANCE_TYPES = [
  'CodeSystem',
  'NamingSystem',
  'SearchParameter',
  'StructureDefinition',
  'ValueSet',
] as const;

/** The CapabilityStatement of the embedded server. `date` is its start, as a FHIR dateTime. */
export function capabilityStatement(
  baseUrl: string,
  date: string,
  locked: ReadonlySet<string> = new Set(),
): CapabilityStatement {
  return {
    resourceType: 'CapabilityStatement',
    status: 'active',
    experimental: true,
    date,
    kind: 'instance',
    description: SANDBOX_NOTICE,
    software: { name: 'Casetally sandbox' },
    implementation: { description: SANDBOX_NOTICE, url: baseUrl },
    fhirVersion: '4.0.1',
    format: ['application/fhir+json', 'json'],
    patchFormat: ['application/json-patch+json'],
    rest: [
      {
        mode: 'server',
        interaction: [{ code: 'transaction' }, { code: 'batch' }],
        resource: [...RESOURCE_TYPES, ...CONFORMANCE_TYPES].map(type => ({
          type,
          interaction: (
            [
              'read',
              'vread',
              'create',
              'update',
              'patch',
              'delete',
              'history-instance',
              'search-type',
            ] as const
          )
            .filter(code => !locked.has(type) || !WRITES.has(code))
            .map(code => ({ code })),
          versioning: 'versioned-update',
          readHistory: true,
          updateCreate: true,
          conditionalCreate: true,
          conditionalUpdate: true,
          conditionalRead: 'not-supported',
          conditionalDelete: 'single',
          referencePolicy: ['literal', 'enforced', 'local'],
        })),
      },
    ],
  };
}
