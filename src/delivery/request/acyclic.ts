import { type ExactJson, parseExact, withEntries } from '../answer/exact-json.js';
import { withReferences } from './references.js';
import { identifierOf, readSubmission, type SentEntry } from './submission.js';

/** What is written about the others, and so after them: an address back to it is the one to do without. */
const ABOUT_OTHERS: ReadonlySet<string> = new Set([
  'Composition',
  'DiagnosticReport',
  'DocumentReference',
  'Provenance',
]);

/**
 * A submission whose resources can be written one after the other. Where they refer to each other in a circle, the
 * way back is by business identifier (a logical reference) in place of an address, first where it leads to a
 * document. What has no identifier stays as it is, and with it the circle. Pure.
 *
 * @returns the text, and each reference that changed as `Type -> Type`; without any, the text as it was given.
 */
export function withoutCircles(text: string): { readonly text: string; readonly changed: readonly string[] } {
  const entries = readSubmission(text)?.entries ?? [];
  const byUrl = new Map(entries.map(entry => [entry.fullUrl, entry]));
  const cut = new Map<SentEntry, Set<string>>();
  const targets = (entry: SentEntry) =>
    entry.placeholders.flatMap(url => (cut.get(entry)?.has(url) ? [] : (byUrl.get(url) ?? [])));
  const leave = (may: (target: SentEntry, from: SentEntry) => boolean) => {
    for (const entry of entries)
      for (const target of targets(entry))
        if (may(target, entry) && identifierOf(target.resource) && reaches(target, entry, targets))
          cut.set(entry, (cut.get(entry) ?? new Set()).add(target.fullUrl));
  };
  leave(({ type }) => ABOUT_OTHERS.has(type));
  leave((target, from) => target !== from);
  if (cut.size === 0) return { text, changed: [] };
  const without = withEntries(parseExact(text), (item, index) => {
    const entry = entries[index];
    const urls = entry && cut.get(entry);
    if (!urls || item['resource'] === undefined) return item;
    return { ...item, resource: byIdentifier(item['resource'], urls, byUrl) };
  });
  const changed = [...cut].flatMap(([entry, urls]) =>
    [...urls].map(url => `${entry.type} -> ${byUrl.get(url)?.type}`),
  );
  return { text: `${without}\n`, changed: [...new Set(changed)].sort() };
}

function reaches(
  from: SentEntry,
  to: SentEntry,
  targets: (entry: SentEntry) => readonly SentEntry[],
): boolean {
  const seen = new Set([from]);
  // A set is walked in the order of adding, and what is added on the way is walked too.
  for (const entry of seen) {
    if (entry === to) return true;
    for (const next of targets(entry)) seen.add(next);
  }
  return false;
}

function byIdentifier(
  resource: ExactJson,
  urls: ReadonlySet<string>,
  byUrl: ReadonlyMap<string, SentEntry>,
): ExactJson {
  return withReferences(resource, (reference, address) => {
    const target = urls.has(address) ? byUrl.get(address) : undefined;
    const identifier = identifierOf(target?.resource);
    if (!target || !identifier) return reference;
    const { reference: _address, ...rest } = reference;
    return { type: target.type, identifier: { ...identifier }, ...rest };
  });
}
