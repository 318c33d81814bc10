import type { ShownPicture } from '../pictures/stored.js';
import type { Fact, TableBlock } from '../view/model.js';

/** One entry of a list. */
export interface ListEntry {
  readonly lines: readonly string[];
  /** True when its first line is in bold. */
  readonly strong: boolean;
  readonly alert: boolean;
}

/** What a page is made of, in reading order. */
export type Item =
  | { readonly kind: 'title'; readonly above: string; readonly text: string }
  | { readonly kind: 'heading'; readonly text: string }
  | { readonly kind: 'text'; readonly lines: readonly string[]; readonly look: 'plain' | 'strong' | 'soft' }
  /** Labelled facts, in one or two columns; `identity` in a frame. */
  | {
      readonly kind: 'facts';
      readonly caption: string;
      readonly facts: readonly (Pick<Fact, 'label' | 'lines' | 'said'> & { readonly strong?: boolean })[];
      readonly across: 1 | 2;
      readonly framed: boolean;
    }
  | { readonly kind: 'table'; readonly table: TableBlock }
  | { readonly kind: 'list'; readonly entries: readonly ListEntry[] }
  /** Stays together in a frame; `heavy` for what must be seen first. */
  | { readonly kind: 'box'; readonly heavy: boolean; readonly items: readonly Item[] }
  | {
      readonly kind: 'picture';
      readonly caption: string;
      readonly svg: string;
      /** On a page of its own, as large as that allows; else where it comes, as wide as the text. */
      readonly alone: boolean;
    }
  /** Stored pictures with a note under them. */
  | { readonly kind: 'stored'; readonly pictures: readonly ShownPicture[]; readonly note: string };
