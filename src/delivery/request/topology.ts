import {
  type ExactJson,
  type ExactObject,
  isExactArray,
  isExactObject,
  textAt,
} from '../answer/exact-json.js';
import type { SentEntry } from './submission.js';

/**
 * The entries in an order in which each comes after those that it refers to; undefined when they refer to each
 * other in a circle, which only a transaction can carry.
 */
export function inOrderOfReference(entries: readonly SentEntry[]): SentEntry[] | undefined {
  const byUrl = new Map(entries.map(entry => [entry.fullUrl, entry]));
  const ordered: SentEntry[] = [];
  const state = new Map<SentEntry, 'visiting' | 'done'>();
  const visit = (entry: SentEntry): boolean => {
    const seen = state.get(entry);
    if (seen) return seen === 'done';
    state.set(entry, 'visiting');
    for (const url of placeholdersIn(entry.resource)) {
      const target = byUrl.get(url);
      if (target && target !== entry && !visit(target)) return false;
    }
    state.set(entry, 'done');
    ordered.push(entry);
    return true;
  };
  return entries.every(visit) ? ordered : undefined;
}

/**
 * The entries in levels: each refers only to entries of the levels before it, in the order given within a level;
 * undefined when they refer to each other in a circle.
 */
export function inLevels(entries: readonly SentEntry[]): SentEntry[][] | undefined {
  const ordered = inOrderOfReference(entries);
  if (!ordered) return undefined;
  const levelOf = new Map<string, number>();
  for (const { fullUrl, resource } of ordered) {
    const below = placeholdersIn(resource).map(url => (url === fullUrl ? -1 : (levelOf.get(url) ?? -1)));
    levelOf.set(fullUrl, Math.max(-1, ...below) + 1);
  }
  const levels: SentEntry[][] = [];
  for (const entry of entries) {
    const at = levelOf.get(entry.fullUrl) ?? 0;
    const level = levels[at] ?? [];
    levels[at] = level;
    level.push(entry);
  }
  return levels;
}

/** The resource with the placeholders in its references replaced by the places given. */
export function withPlaces(resource: ExactObject, places: ReadonlyMap<string, string>): ExactJson {
  const replace = (value: ExactJson, key: string): ExactJson => {
    if (typeof value === 'string') return key === 'reference' ? (places.get(value) ?? value) : value;
    if (isExactArray(value)) return value.map(item => replace(item, ''));
    if (!isExactObject(value)) return value;
    return Object.fromEntries(Object.entries(value).map(([k, inner]) => [k, replace(inner, k)]));
  };
  return isDocument(resource) ? resource : replace(resource, '');
}

function placeholdersIn(resource: ExactObject | undefined): string[] {
  const found: string[] = [];
  const visit = (value: ExactJson, key: string): void => {
    if (typeof value === 'string') {
      if (key === 'reference' && value.startsWith('urn:')) found.push(value);
    } else if (isExactArray(value)) {
      for (const item of value) visit(item, '');
    } else if (isExactObject(value)) {
      for (const [k, inner] of Object.entries(value)) visit(inner, k);
    }
  };
  if (resource && !isDocument(resource)) visit(resource, '');
  return found;
}

/** The inside of a document refers to itself. */
function isDocument(resource: ExactObject): boolean {
  return textAt(resource, 'resourceType') === 'Bundle';
}
