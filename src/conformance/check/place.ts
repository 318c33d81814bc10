import type { JsonObject } from '../../json/parse.js';
import type { BundleIndex } from './bundle-index.js';

/** Where a value stands: a chain up to the root, turned into a path only when an issue needs it. */
export interface Place {
  readonly parent: Place | undefined;
  readonly name: string;
  /** Position in a repeating element; -1 for others. */
  readonly index: number;
  /** The object or array that holds the value, and under which member: to find its line. */
  readonly owner: object;
  readonly key: string;
}

/** The resource a value belongs to, with what references from it can reach. */
export interface Scope {
  /** The resource itself, contained or not: `%resource`. */
  readonly resource: JsonObject;
  /** The resource that contains it, or itself: `%rootResource`. */
  readonly root: JsonObject;
  readonly place: Place;
  readonly bundle?: BundleIndex;
  /** fullUrl of the entry that holds the root resource. */
  readonly fullUrl?: string;
}

export function rootPlace(type: string, resource: object): Place {
  return { parent: undefined, name: type, index: -1, owner: resource, key: '' };
}

/** FHIRPath element path with indexes: `Procedure.performer[0].actor`. */
export function pathOf(place: Place): string {
  const step = place.index < 0 ? place.name : `${place.name}[${place.index}]`;
  return place.parent ? `${pathOf(place.parent)}.${step}` : step;
}

/** The same without indexes: one binding has one such path however often it is used. */
export function patternOf(place: Place): string {
  return place.parent ? `${patternOf(place.parent)}.${place.name}` : place.name;
}
