import type { Merged } from '../../../src/drafts/merge.js';
import type { Conflict } from '../../../src/drafts/merge-nodes.js';
import type { Edit, EngineCalls, Texts } from '../engine/work.js';
import type { Edits, NotMade, Saving } from './types.js';

/** The last text that both sides had, what stands here, and what others made of it. */
interface Sides {
  readonly saved: string;
  readonly mine: string;
  readonly theirs: string;
}

/**
 * The text of the others with everything from here that does not contend with it, and of what does, what is meant.
 * @param meant paths of the conflicts at which what stands here is meant
 */
export async function settledText(
  engine: EngineCalls,
  { saved, mine, theirs }: Sides,
  conflicts: readonly Conflict[],
  meant: ReadonlySet<string>,
): Promise<{ readonly text: string } | { readonly findings: NonNullable<NotMade> }> {
  const own = await engine.between(saved, mine);
  if ('findings' in own) return own;
  const rest = own.edits.filter(({ path }) => !conflicts.some(conflict => touches(path, conflict.path)));
  const joined = await engine.edit({ base: saved, now: theirs }, rest);
  if ('findings' in joined) return joined;
  const kept = conflicts
    .filter(({ path }) => meant.has(path))
    .map(({ path, mine: value }): Edit => (value === undefined ? { path, remove: true } : { path, value }));
  return engine.edit({ base: joined.text, now: joined.text }, kept);
}

/** A text with edits made in it. */
export type Made = Omit<Merged, 'theirs'>;

/**
 * Makes edits that were made for an earlier text. Where this page alone changed it since, the later edit is meant: a
 * finger may be ahead of what the page shows.
 */
export async function madeOver(
  engine: EngineCalls,
  texts: Texts,
  edits: Edits,
): Promise<Made | { readonly findings: NonNullable<NotMade> }> {
  const made = await engine.edit(texts, edits);
  if (!('conflicts' in made) || !texts.since) return made;
  // An entry that was taken out meanwhile does not come back by itself.
  if (made.conflicts.some(({ theirs }) => theirs === undefined)) return made;
  const { base, now } = texts;
  const mine = await engine.edit({ base, now: base }, edits);
  if ('findings' in mine) return mine;
  const meant = new Set(made.conflicts.map(({ path }) => path));
  const sides = { saved: base, mine: mine.text, theirs: now };
  const settled = await settledText(engine, sides, made.conflicts, meant);
  if ('findings' in settled) return settled;
  const [forth, inverse] = [await engine.between(now, settled.text), await engine.between(settled.text, now)];
  if ('findings' in forth) return forth;
  return 'findings' in inverse ? inverse : { text: settled.text, inverse, edits: forth.edits };
}

/** The text of the others with what was changed here since, or how the two contend. */
export async function joinedText(
  engine: EngineCalls,
  { saved, mine, theirs }: Sides,
): Promise<{ readonly text: string } | Saving> {
  if (mine === saved) return { text: theirs };
  if (theirs === saved) return { text: mine };
  const made = await engine.merge({ base: saved, now: theirs }, mine);
  if ('conflicts' in made) return { kind: 'conflict', conflicts: made.conflicts };
  // Told as refused, since what stands here is kept and was not mixed with anything.
  return 'findings' in made ? { kind: 'refused', why: String(made.findings[0]?.code ?? '') } : made;
}

/** True where one of two paths is the other, or lies in it. */
const touches = (one: string, other: string) => within(one, other) || within(other, one);
const within = (path: string, place: string) =>
  path === place || path.startsWith(`${place}.`) || path.startsWith(`${place}[`);
