import type { Edit } from '../engine/work.js';

/** Most edits that are remembered: a finger is at most a few ahead of what it sees. */
const MOST = 20;

/** The last edits of this page, one after the other up to the text that stands here; nothing of others is between. */
export class OwnEdits {
  #made: { readonly from: string; readonly edits: readonly Edit[] }[] = [];

  add(from: string, edits: readonly Edit[]): void {
    this.#made = [...this.#made.slice(1 - MOST), { from, edits }];
  }

  /** Others changed the text. */
  end(): void {
    this.#made = [];
  }

  /** What this page alone made of an earlier text; undefined where others had a part in it. */
  since(base: string, now: string): readonly Edit[] | undefined {
    if (base === now) return [];
    const first = this.#made.findLastIndex(({ from }) => from === base);
    return first < 0 ? undefined : this.#made.slice(first).flatMap(({ edits }) => edits);
  }
}
