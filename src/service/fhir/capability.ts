import type { CapabilityStatement, CapabilityStatementRestResourceOperation } from 'fhir/r4.js';
import { resourceTypes } from './resource-types.js';

/** What of our OperationDefinition the statement names. */
interface Published {
  readonly url: string;
  readonly date: string;
}

const validate: CapabilityStatementRestResourceOperation = {
  name: 'validate',
  definition: 'http://hl7.org/fhir/OperationDefinition/Resource-validate',
  documentation:
    'Checks a resource by R4, by the profiles of meta.profile and by that of profile. Nothing is kept, so the modes update and delete, which are about a stored resource, are refused.',
};

/**
 * What the FHIR face of the service does. It names no address: behind a proxy the service does not know its own.
 * Source: FHIR R4, capabilitystatement.html.
 */
export function capabilityStatement(softwareVersion: string, { url, date }: Published): CapabilityStatement {
  return {
    resourceType: 'CapabilityStatement',
    status: 'active',
    date,
    kind: 'instance',
    description:
      'Operations on case records and resources; no resource is kept here. Decision support only: every result is to be checked; local policy and licensed judgement come first.',
    software: { name: 'Casetally', version: softwareVersion },
    implementation: { description: 'Casetally service' },
    fhirVersion: '4.0.1',
    format: ['application/fhir+json'],
    rest: [
      {
        mode: 'server',
        security: {
          description:
            'A bearer token of the site configuration, or whoever is signed in; operations need the right to check.',
        },
        resource: [...resourceTypes].map(type => ({
          type: type as 'OperationDefinition',
          ...(type === 'OperationDefinition' && { interaction: [{ code: 'read' as const }] }),
          operation: [validate],
        })),
        operation: [
          validate,
          {
            name: 'process-case',
            definition: url,
            documentation: 'Makes of a case record what would be sent, the document, and the findings.',
          },
        ],
      },
    ],
  };
}
