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
    for (const url of entry.placeholders) {
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
  for (const { fullUrl, placeholders } of ordered) {
    const below = placeholders.map(url => (url === fullUrl ? -1 : (levelOf.get(url) ?? -1)));
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
