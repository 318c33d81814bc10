import type { Font } from 'fontkit';
import PDFDocument from 'pdfkit';
import { CasetallyError } from '../../findings/errors.js';
import type { ReportDocument } from '../view/nodes.js';
import { type Faces, openFaces } from './faces.js';
import { flow } from './flow.js';
import { framePages, margins } from './frame.js';
import { glyphFindings } from './glyphs.js';
import { piecesOf } from './nodes.js';
import type { PdfFonts, PdfMaker, PdfOptions, ScriptCuts } from './options.js';
import { type Doc, makePen } from './pen.js';
import type { Layout } from './rows.js';

declare global {
  namespace PDFKit.Mixins {
    interface PDFFont {
      /** The library takes opened fonts; its types do not know of it yet. */
      registerFont(name: string, src: Font): this;
    }
  }
}

/** Makes PDF files with two cuts of a typeface, and of others for scripts that it lacks. */
export function pdfMaker(fonts: PdfFonts, more: readonly ScriptCuts[] = []): PdfMaker {
  const faces = openFaces(fonts, more);
  return {
    render: (document, options) => renderPdf(document, options, faces),
    findings: (record, document) => glyphFindings(record, faces.covers, document),
  };
}

/** One report. What is meant for so many pages is written smaller where that makes it fit; else it runs on in its usual size. */
function renderPdf(document: ReportDocument, options: PdfOptions, faces: Faces): Uint8Array {
  const [usual, ...smaller] = sizes[document.audience];
  const most = fits[document.audience];
  const first = drawn(document, options, faces, usual);
  if (first.front > most)
    for (const size of smaller) {
      // Letters so much smaller take less room in both directions: what is far too long even so is not drawn for nothing.
      if (first.front * (size / usual) ** 2 > most + ENDS) continue;
      const other = drawn(document, options, faces, size);
      if (other.front <= most) return bytesOf(other.doc);
    }
  return bytesOf(first.doc);
}

/** What may be empty at the ends of pages because something stays together, and is not in another size; a part of a page. */
const ENDS = 0.25;

/** Pages that are meant to hold a report, its annex aside. */
const fits = { record: 2, referrer: 1, ward: 2, patient: 2 } as const;

/**
 * One report as a tagged PDF 1.7 with embedded fonts, its plain text `letters` points large.
 * @returns with it, how many pages it fills, its annex aside
 */
function drawn(
  document: ReportDocument,
  { created, paper }: PdfOptions,
  faces: Faces,
  letters: number,
): { readonly doc: Doc; readonly front: number } {
  const { audience, language, name, about } = document;
  const size = paper ?? (language === 'en-US' ? 'Letter' : 'A4');
  const doc = new PDFDocument({
    size,
    margins,
    pdfVersion: '1.7',
    lang: language,
    tagged: true,
    displayTitle: true,
    bufferPages: true,
    font: '',
    info: {
      Title: name,
      Subject: about,
      Creator: MADE_BY,
      Producer: MADE_BY,
      CreationDate: created,
      ModDate: created,
    },
  });
  doc.appendXML(ACCESSIBLE);
  Object.assign(doc.info, { Title: new InfoText(name), Subject: new InfoText(about) });
  const pen = makePen(doc, faces);
  const root = doc.struct('Document');
  doc.addStructure(root);
  const layout = layoutOf(doc.page.width, doc.page.height, letters, airs[audience]);
  let front: number | undefined;
  const last = flow(piecesOf(pen, document, layout, root), {
    top: margins.top,
    bottom: margins.top + layout.most,
    turn(alone, opens, filled) {
      if (opens) front ??= pagesOf(doc) - 1 + filled;
      doc.addPage({ size, margins, layout: alone ? 'landscape' : 'portrait' });
    },
  });
  framePages(pen, document);
  return { doc, front: front ?? pagesOf(doc) - 1 + last };
}

const pagesOf = (doc: Doc): number => doc.bufferedPageRange().count;

const MADE_BY = 'Casetally';

/**
 * Says that the file keeps to PDF/UA-1 (ISO 14289-1, section 5). The library's own option also writes a CIDSet, which
 * leaves out the parts of composed letters, and so breaks section 7.21.4.2 of the same standard.
 */
const ACCESSIBLE =
  '<rdf:Description xmlns:pdfuaid="http://www.aiim.org/pdfua/ns/id/" rdf:about=""><pdfuaid:part>1</pdfuaid:part></rdf:Description>';

/** What the referrer gets fits on one page; what a patient gets is large enough to read at a kitchen table. */
const sizes = {
  record: [8.3, 8, 7.7],
  referrer: [7.8, 7.4, 7],
  ward: [8.6, 8.2, 7.9],
  patient: [12, 11.5, 11],
} as const;
const airs = { record: 1, referrer: 0.6, ward: 1.1, patient: 1.3 } as const;

function layoutOf(width: number, height: number, size: number, air: number): Layout {
  return {
    left: margins.left,
    width: width - margins.left - margins.right,
    most: height - margins.top - margins.bottom,
    size,
    air,
  };
}

/**
 * Text of the document's information. The library writes it twice: as a string of the file, and as it is into XML,
 * where it has to be escaped.
 */
class InfoText extends String {
  override toString(): string {
    return this.valueOf().replace(/&/g, '&amp;').replace(/</g, '&lt;').replace(/>/g, '&gt;');
  }
}

/** The library writes into a stream; all of it is there when the document has ended, so that no waiting is needed. */
function bytesOf(doc: Doc): Uint8Array {
  doc.end();
  const bytes: unknown = doc.read();
  if (!(bytes instanceof Uint8Array))
    throw new CasetallyError('usage', 'The PDF library did not write the whole document at once.');
  return new Uint8Array(bytes);
}
