import type { CapabilityStatement } from '@medplum/fhirtypes';

/** Said on start and in /metadata. */
export const SANDBOX_NOTICE =
  'Embedded FHIR server for trying out and for tests only. It keeps everything in memory, asks nobody who they are and is not for patient data.';

const RESOURCE_TYPES = [
  'Binary',
  'Bundle',
  'CarePlan',
  'Composition',
  'Condition',
  'Device',
  'DeviceUseStatement',
  'DiagnosticReport',
  'DiagnosticReport',
  'DocumentReference',
  'Encounter',
  'ImagingStudy',
  'Location',
  'MedicationAdministration',
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

/** The CapabilityStatement of the embedded server. `date` is its start, as a FHIR dateTime. */
export function capabilityStatement(baseUrl: string, date: string): CapabilityStatement {
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
        resource: RESOURCE_TYPES.map(type => ({
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
          ).map(code => ({ code })),
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
