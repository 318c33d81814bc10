import type { JsonObject } from '../../json/parse.js';
import { isObject } from './equal.js';
import type { Place, Scope } from './place.js';

/** The place of an entry of the Bundle `resource`. */
export function entryPlace(bundle: Place, resource: JsonObject, index: number): Place {
  const owner = Array.isArray(resource['entry']) ? resource['entry'] : resource;
  return { parent: bundle, name: 'entry', index, owner, key: String(index) };
}

/** All literal references in a resource, its contained resources included. */
export function referencesIn(value: unknown, into: string[] = []): string[] {
  if (Array.isArray(value)) {
    for (const item of value) referencesIn(item, into);
  } else if (isObject(value)) {
    for (const key in value) {
      const member = value[key];
      if (key === 'reference' && typeof member === 'string') into.push(member);
      else if (typeof member === 'object') referencesIn(member, into);
    }
  }
  return into;
}

/** fullUrl of the entry whose resource stands at `place`; elsewhere that of the resource around it. */
export function fullUrlOf(place: Place, scope: Scope): string | undefined {
  const entry = place.parent;
  return entry?.name === 'entry' ? scope.bundle?.entries[entry.index]?.fullUrl : scope.fullUrl;
}
