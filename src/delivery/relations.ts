import {
  type ExactJson,
  exactText,
  isExactObject,
  listAt,
  objectAt,
  parseExact,
  textAt,
} from './exact-json.js';

const DOCUMENTS: ReadonlySet<string | undefined> = new Set(['Composition', 'DocumentReference']);

/** A submission whose documents do not name the ones before them; undefined where none did. */
export function withoutRelations(submission: string): string | undefined {
  const bundle = parseExact(submission);
  if (!isExactObject(bundle)) return undefined;
  let changed = false;
  const entry = listAt(bundle, 'entry').map((item): ExactJson => {
    const resource = objectAt(item, 'resource');
    if (!resource || !isExactObject(item) || !DOCUMENTS.has(textAt(resource, 'resourceType'))) return item;
    const { relatesTo, ...rest } = resource;
    if (relatesTo === undefined) return item;
    changed = true;
    return { ...item, resource: rest };
  });
  return changed ? `${exactText({ ...bundle, entry })}\n` : undefined;
}
