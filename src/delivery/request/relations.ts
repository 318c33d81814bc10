import { objectAt, parseExact, textAt, withEntries } from '../answer/exact-json.js';

const DOCUMENTS: ReadonlySet<string | undefined> = new Set(['Composition', 'DocumentReference']);

/** A submission whose documents do not name the ones before them; undefined where none did. */
export function withoutRelations(submission: string): string | undefined {
  let changed = false;
  const text = withEntries(parseExact(submission), item => {
    const resource = objectAt(item, 'resource');
    if (!resource || !DOCUMENTS.has(textAt(resource, 'resourceType'))) return item;
    const { relatesTo, ...rest } = resource;
    if (relatesTo === undefined) return item;
    changed = true;
    return { ...item, resource: rest };
  });
  return changed ? `${text}\n` : undefined;
}
