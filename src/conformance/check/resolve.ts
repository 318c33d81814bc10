import type { JsonObject } from '../../json/parse.js';
import { isObject } from './equal.js';
import type { Place, Scope } from './place.js';
import { rootPlace } from './place.js';

/** What a reference leads to, with the scope of that resource. */
export interface Target {
  readonly resource: JsonObject;
  readonly scope: Scope;
  readonly how: 'contained' | 'bundled';
}

/** The resource that `reference` means within the container or Bundle of `scope`, if it is there. */
export function resolve(reference: string, scope: Scope): Target | undefined {
  if (reference.startsWith('#')) {
    if (reference === '#') return { resource: scope.root, scope: rootScope(scope), how: 'contained' };
    const resource = containedOf(scope.root).find(c => c['id'] === reference.slice(1));
    return (
      resource && { resource, scope: { ...scope, resource, place: placeOf(resource) }, how: 'contained' }
    );
  }
  const entry = scope.bundle?.find(reference, scope.fullUrl);
  if (!entry?.resource || !scope.bundle) return undefined;
  const { resource, fullUrl } = entry;
  return {
    resource,
    how: 'bundled',
    scope: {
      resource,
      root: resource,
      place: placeOf(resource),
      bundle: scope.bundle,
      ...(fullUrl !== undefined && { fullUrl }),
    },
  };
}

export function containedOf(resource: JsonObject): JsonObject[] {
  const contained = resource['contained'];
  return Array.isArray(contained) ? contained.filter(c => isObject(c)).map(c => c as JsonObject) : [];
}

function rootScope(scope: Scope): Scope {
  return { ...scope, resource: scope.root, place: placeOf(scope.root) };
}

function placeOf(resource: JsonObject): Place {
  return rootPlace(String(resource['resourceType']), resource);
}
