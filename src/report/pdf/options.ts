import type { Font } from 'fontkit';
import type { Finding } from '../../findings/finding.js';
import type { ReportDocument } from '../view/nodes.js';

/** Sizes of paper that a report is laid out for. */
export const papers = ['A4', 'Letter'] as const;
export type Paper = (typeof papers)[number];

/** Two cuts of one typeface, as TrueType or OpenType bytes. */
export interface PdfFonts {
  readonly regular: Uint8Array;
  readonly bold: Uint8Array;
}

/** Two cuts of a typeface for other scripts, opened when a text first needs it. */
export interface ScriptCuts {
  readonly name: string;
  /** Signs that it is for. */
  readonly signs: RegExp;
  /** Signs that tell that others beside them are meant in its form. */
  readonly own?: RegExp;
  open(): { readonly regular: Font; readonly bold: Font };
}

export interface PdfOptions {
  /** `A4` when absent; `Letter` for American English. */
  readonly paper?: Paper;
  /** Date of the file, from the record and never from a clock. */
  readonly created: Date;
}

/** Makes PDF files: loaded once at the edge, for the libraries and fonts take time to load. */
export interface PdfMaker {
  /** Pure and synchronous: same document and options, same bytes. */
  render(document: ReportDocument, options: PdfOptions): Uint8Array;
  /**
   * Says where a record holds characters that the fonts lack and that a PDF therefore shows as U+FFFD, and which of those
   * a report has from elsewhere.
   */
  findings(record: unknown, document?: ReportDocument): Finding[];
}
