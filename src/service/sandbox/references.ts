import type { Resource } from '@medplum/fhirtypes';

/** One Reference.reference inside a resource: where it stands and how to change it. */
export interface FoundReference {
  /** FHIRPath from the resource: `Procedure.performer[0].actor.reference`. */
  readonly path: string;
  readonly value: string;
  readonly replace: (value: string) => void;
}

/**
 * Lists the references of a resource. The inside of a stored Bundle (a document) is left alone:
 * its references point within itself.
 */
export function referencesOf(resource: Resource): FoundReference[] {
  const found: FoundReference[] = [];
  const visit = (node: object, path: string) => {
    for (const [key, value] of Object.entries(node)) {
      const at = Array.isArray(node) ? `${path}[${key}]` : `${path}.${key}`;
      if (key === 'reference' && typeof value === 'string') {
        found.push({ path: at, value, replace: to => Reflect.set(node, key, to) });
      } else if (typeof value === 'object' && value !== null) {
        visit(value, at);
      }
    }
  };
  if (resource.resourceType !== 'Bundle') visit(resource, resource.resourceType);
  return found;
}

/** `Type/id` of a relative literal reference, with or without a version; undefined for anything else. */
export function literalTarget(reference: string): { type: string; id: string } | undefined {
  const match = /^([A-Z]\w+)\/([A-Za-z0-9.-]{1,64})(?:\/_history\/[\w.-]+)?$/.exec(reference);
  return match?.[1] && match[2] ? { type: match[1], id: match[2] } : undefined;
}

/** True for a conditional reference such as `Patient?identifier=urn:oid:1.2|3`. */
export function isConditional(reference: string): boolean {
  return /^[A-Z]\w+\?/.test(reference);
}

/** True for a placeholder that only a fullUrl of the same transaction can resolve. */
export function isPlaceholder(reference: string): boolean {
  return /^urn:(uuid|oid):/i.test(reference);
}
