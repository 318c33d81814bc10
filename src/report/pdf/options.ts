import type { Finding } from '../../findings/finding.js';
import type { Audience } from '../options.js';
import type { StoredPictures } from '../pictures/stored.js';
import type { ReportView } from '../view/model.js';

/** Sizes of paper that a report is laid out for. */
export const papers = ['A4', 'Letter'] as const;
export type Paper = (typeof papers)[number];

/** Two cuts of one typeface, as TrueType or OpenType bytes. */
export interface PdfFonts {
  readonly regular: Uint8Array;
  readonly bold: Uint8Array;
}

export interface PdfOptions {
  readonly audience: Audience;
  /** `A4` when absent; `Letter` for American English. */
  readonly paper?: Paper;
  /** Date of the document, from the record and never from a clock. */
  readonly created: Date;
  /** SVG of the device timeline: drawn at the end of the full report. */
  readonly timelineSvg?: string;
  /** SVG of the dose panel, for the full report; empty for none. */
  readonly doseSvg?: string;
  /** Stored pictures, for the full report; other readers get none. */
  readonly pictures?: StoredPictures;
  /** The sections that a site adds to this report, as its text version has them; see `siteSections`. */
  readonly more?: string;
}

/** Makes PDF files: loaded once at the edge, for the libraries and fonts take time to load. */
export interface PdfMaker {
  /** Pure and synchronous: same view and options, same bytes. */
  render(view: ReportView, options: PdfOptions): Uint8Array;
  /** Says where a record holds characters that the fonts lack and that a PDF therefore shows as U+FFFD. */
  findings(record: unknown): Finding[];
}
