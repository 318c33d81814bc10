import type { Format } from '../options.js';
import type { Node, ReportDocument } from '../view/nodes.js';
import { narrativeDiv } from './narrative.js';
import type { Templates } from './templates.js';
import { tidy } from './text.js';

/** Renders one report. Pure: same document and templates, same text. */
export function renderReport(document: ReportDocument, templates: Templates, format: Format): string {
  switch (format) {
    case 'html':
      return `${templates.render('page', { ...document, onScreen: true }).trim()}\n`;
    case 'text':
      return tidy(templates.render('text', document));
    case 'xhtml':
      return narrativeDiv('xhtml', templates.render('xhtml', { ...wordsAlone(document), onScreen: false }));
  }
}

/** The narratives of one case, each a `div` in the XHTML namespace, fit for `Narrative.div`. */
export interface ReportNarrative {
  readonly title: string;
  /** Patient, case, status, notices and caution, without the sections: what stands above them in a document. */
  readonly header: string;
  /** One `div` a section, in reading order. */
  readonly sections: readonly { readonly key: string; readonly title: string; readonly div: string }[];
}

/** Renders a report as FHIR narratives. */
export function renderNarrative(document: ReportDocument, templates: Templates): ReportNarrative {
  const { language, title, sections } = wordsAlone(document);
  return {
    title,
    header: renderReport({ ...document, sections: [] }, templates, 'xhtml'),
    sections: sections.map(({ key, title, nodes }) => ({
      key,
      title,
      div: narrativeDiv('narrative', templates.render('narrative', { language, nodes, onScreen: false })),
    })),
  };
}

/** FHIR narratives of ours show no pictures; all that these show stands in a table. */
function wordsAlone(document: ReportDocument): ReportDocument {
  const isWords = ({ kind }: Node) => kind !== 'figure' && kind !== 'gallery';
  return {
    ...document,
    sections: document.sections.map(section => ({ ...section, nodes: section.nodes.filter(isWords) })),
  };
}
