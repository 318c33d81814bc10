import type { Language } from '../../findings/languages.js';
import type { Audience } from '../options.js';
import type { ShownPicture } from '../pictures/stored.js';
import type { Picture } from '../pictures/svg.js';
import type { FactsBlock, Status, TableBlock } from './model.js';

/** Lines of running text. */
export interface Paragraph {
  readonly kind: 'paragraph';
  readonly lines: readonly string[];
  readonly strong: boolean;
}

export interface ListItem {
  readonly lines: readonly string[];
  /** True when its first line names what the others are about. */
  readonly strong: boolean;
  readonly alert: boolean;
}

export interface List {
  readonly kind: 'list';
  readonly items: readonly ListItem[];
}

/** A drawing of ours, with what stands for it where it cannot be seen. All that it shows stands in a table too. */
export interface Figure {
  readonly kind: 'figure';
  readonly caption: string;
  readonly alt: string;
  readonly picture: Picture;
  /** Too wide to read on the width of a printed page. */
  readonly broad: boolean;
}

/** Stored pictures, with a note for all of them. What they show is named in a table too. */
export interface Gallery {
  readonly kind: 'gallery';
  readonly pictures: readonly ShownPicture[];
  readonly note: string;
}

export type Node = FactsBlock | TableBlock | Paragraph | List | Figure | Gallery;

export interface DocumentSection {
  /** Names it for a site's layout and for styles. */
  readonly key: string;
  readonly title: string;
  /** Set apart by a frame. */
  readonly framed: boolean;
  /** Begins a page where there are pages. */
  readonly page: boolean;
  readonly nodes: readonly Node[];
}

/** One fact of the strip. */
export interface StripFact {
  readonly key: string;
  readonly label: string;
  readonly value: string;
  readonly strong: boolean;
}

/** Who and what the report is about, and how far it can be relied on. */
export interface Strip {
  readonly caption: string;
  /** Two facts a row. */
  readonly rows: readonly (readonly StripFact[])[];
}

/** One reader's report: every format lays out this and nothing else. */
export interface ReportDocument {
  readonly audience: Audience;
  readonly language: Language;
  readonly title: string;
  /** `Full report · Angiography 2`; empty for the patient. */
  readonly above: string;
  /** Title of the file or window: patient, title and status. */
  readonly name: string;
  /** `Full report, case HB-0193`. */
  readonly about: string;
  /** What stands on every page: who, and which report of which day. */
  readonly running: { readonly person: string; readonly identifiers: string; readonly report: string };
  readonly status: Status;
  readonly strip: Strip;
  /** What must be read before all else; empty where there is nothing of the kind. */
  readonly callout: readonly string[];
  readonly sections: readonly DocumentSection[];
  readonly caution: readonly string[];
}
