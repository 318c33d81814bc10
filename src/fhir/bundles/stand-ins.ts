import type { CodeableConcept, FhirResource, Reference } from 'fhir/r4.js';
import type { CaseResource } from '../set.js';
import { type Replacement, referencesIn, withReferences } from './references.js';

/** Resources of the case that are not sent, by address. */
export type Left = ReadonlyMap<string, CaseResource>;

/**
 * A resource that says by itself what those would have said that it points at and that are not sent: kinds of devices
 * and reasons as codes, structures with their side and the requests of tasks as contained resources.
 */
export function withStandIns(resource: CaseResource, left: Left): CaseResource {
  return withRequest(withStructures(withKinds(resource, left), left), left);
}

function withKinds(resource: CaseResource, left: Left): CaseResource {
  const kindsOf = (references: readonly Reference[] = []): CodeableConcept[] => {
    const kinds = references.flatMap(({ reference = '' }) => {
      const target = left.get(reference);
      if (target?.resourceType === 'Device') return target.type ?? [];
      return target?.resourceType === 'Condition' ? (target.code ?? []) : [];
    });
    return [...new Map(kinds.map(kind => [JSON.stringify(kind), kind])).values()];
  };
  if (resource.resourceType !== 'Procedure' && resource.resourceType !== 'DeviceUseStatement')
    return resource;
  const reasonCode = [...(resource.reasonCode ?? []), ...kindsOf(resource.reasonReference)];
  const reasons = reasonCode.length > 0 && { reasonCode };
  if (resource.resourceType === 'DeviceUseStatement') return { ...resource, ...reasons };
  const usedCode = [...(resource.usedCode ?? []), ...kindsOf(resource.usedReference)];
  return { ...resource, ...(usedCode.length > 0 && { usedCode }), ...reasons };
}

/** Sides are coded in structures alone: R4's bodySite has no place for them. */
function withStructures(resource: CaseResource, left: Left): CaseResource {
  if (resource.resourceType !== 'Procedure') return resource;
  const contained: FhirResource[] = [];
  const replace = new Map<string, Replacement>();
  for (const address of referencesIn(resource.extension)) {
    const structure = left.get(address);
    if (structure?.resourceType !== 'BodyStructure' || replace.has(address)) continue;
    const id = `site-${contained.length + 1}`;
    // What is contained is no record of its own: it has no identifier, and no text (R4, dom-6).
    const { identifier: _, text: __, ...rest } = structure;
    contained.push({ ...rest, id });
    replace.set(address, { reference: `#${id}` });
  }
  return contained.length === 0 ? resource : { ...withReferences(resource, replace), contained };
}

/** A task seeks the fulfilment of its request (R4, Task.focus; R5, tsk-1): without it the task would have no day. */
function withRequest(resource: CaseResource, left: Left): CaseResource {
  if (resource.resourceType !== 'Task') return resource;
  const address = resource.focus?.reference ?? '';
  const request = left.get(address);
  if (request?.resourceType !== 'ServiceRequest') return resource;
  const replace = new Map<string, Replacement>([[address, { reference: '#request' }]]);
  // It keeps its identifier, which our profile asks for, and claims nothing: not every destination takes claims.
  const { text: _, meta: __, ...rest } = request;
  return { ...withReferences(resource, replace), contained: [{ ...rest, id: 'request' }] };
}
