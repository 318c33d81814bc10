import PDFDocument from 'pdfkit';
import { CasetallyError } from '../../findings/errors.js';
import type { ReportView } from '../view/model.js';
import { lexicon } from '../words/lexicon.js';
import { contentOf } from './content.js';
import { flow } from './flow.js';
import { framePages, margins } from './frame.js';
import { type Covers, coverage, glyphFindings } from './glyphs.js';
import { type Layout, piecesOf } from './layout.js';
import type { PdfFonts, PdfMaker, PdfOptions } from './options.js';
import { type Doc, makePen } from './pen.js';

/** Makes PDF files with two cuts of a typeface. */
export function pdfMaker(fonts: PdfFonts): PdfMaker {
  const covers = coverage(fonts);
  return {
    render: (view, options) => renderPdf(view, options, fonts, covers),
    findings: record => glyphFindings(record, covers),
  };
}

/**
 * One report as a tagged PDF 1.7 with embedded fonts. The library writes into a stream; all of it is there when the
 * document has ended, so that no waiting is needed.
 */
function renderPdf(view: ReportView, options: PdfOptions, fonts: PdfFonts, covers: Covers): Uint8Array {
  const { audience, created } = options;
  const { say } = lexicon(view.language);
  const size = options.paper ?? (view.language === 'en-US' ? 'Letter' : 'A4');
  const items = contentOf(view, say, audience, options.timelineSvg);
  const title = audience === 'patient' ? say('patient.title') : view.title;
  const name = `${view.identity.line}: ${title} (${view.status.line})`;
  const about = `${say(`page.audience.${audience}`)}, ${say('label.caseId')} ${view.caseId}`;
  const settings: PDFKit.PDFDocumentOptions = {
    size,
    margins,
    pdfVersion: '1.7',
    lang: view.language,
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
  };
  // The library's types do not know this subset yet.
  const doc = new PDFDocument(Object.assign(settings, { subset: 'PDF/UA' }));
  Object.assign(doc.info, { Title: new InfoText(name), Subject: new InfoText(about) });
  doc.registerFont('regular', Buffer.from(fonts.regular)).registerFont('bold', Buffer.from(fonts.bold));
  const pen = makePen(doc, covers);
  const root = doc.struct('Document');
  doc.addStructure(root);
  const layout = layoutOf(doc.page.width, doc.page.height, audience);
  flow(piecesOf(pen, items, layout, root), {
    top: margins.top,
    bottom: margins.top + layout.most,
    turn(alone) {
      doc.addPage({ size, margins, layout: alone ? 'landscape' : 'portrait' });
    },
  });
  framePages(pen, view, say, audience);
  return bytesOf(doc);
}

const MADE_BY = 'Casetally';

/** What the referrer gets fits on one page; what a patient gets is large enough to read at a kitchen table. */
const sizes = { record: 8.3, referrer: 7.8, ward: 8.6, patient: 11 } as const;
const airs = { record: 1, referrer: 0.6, ward: 1.1, patient: 1.3 } as const;

function layoutOf(width: number, height: number, audience: PdfOptions['audience']): Layout {
  return {
    left: margins.left,
    width: width - margins.left - margins.right,
    most: height - margins.top - margins.bottom,
    size: sizes[audience],
    air: airs[audience],
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

function bytesOf(doc: Doc): Uint8Array {
  doc.end();
  const bytes: unknown = doc.read();
  if (!(bytes instanceof Uint8Array))
    throw new CasetallyError('usage', 'The PDF library did not write the whole document at once.');
  return new Uint8Array(bytes);
}
