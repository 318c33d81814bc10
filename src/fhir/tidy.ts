import { withDigitsOf } from '../json/write.js';

/** The list, or nothing when it is empty: FHIR has no empty lists. */
export function some<T>(list: readonly T[]): T[] | undefined {
  return list.length === 0 ? undefined : [...list];
}

/** Texts of a list that are there. */
export function present(...texts: readonly (string | undefined | false)[]): string[] {
  return texts.filter(text => typeof text === 'string' && text.trim() !== '').map(String);
}

/**
 * A copy of a resource without absent (undefined) elements; FHIR has no empty elements. Digits of exact quantities stay.
 * An object that elements are taken out of is slow to read from then on, and every resource is read many times.
 */
export function tidy<T extends object>(resource: T): T;
export function tidy(resource: object): object {
  if (Array.isArray(resource)) return resource.map(tidied);
  const copy: Record<string, unknown> = {};
  for (const [key, value] of Object.entries(resource)) if (value !== undefined) copy[key] = tidied(value);
  return withDigitsOf(resource, copy);
}

const tidied = (value: unknown): unknown =>
  typeof value === 'object' && value !== null ? tidy(value) : value;
