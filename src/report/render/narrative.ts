import { SaxesParser } from 'saxes';
import { CasetallyError } from '../../findings/errors.js';
import { lexicon } from '../../findings/say.js';
import type { ReportView, SectionKey } from '../view/model.js';
import type { Templates } from './templates.js';

const XHTML = 'http://www.w3.org/1999/xhtml';

/**
 * Elements and attributes that the report's narratives use: a part of what FHIR allows (constraint txt-1 of
 * StructureDefinition Narrative, R4), without images, links, styles and scripts.
 */
export const ELEMENTS: ReadonlySet<string> = new Set([
  'b',
  'br',
  'caption',
  'dd',
  'div',
  'dl',
  'dt',
  'em',
  'h1',
  'h2',
  'h3',
  'h4',
  'h5',
  'h6',
  'hr',
  'i',
  'li',
  'ol',
  'p',
  'small',
  'span',
  'strong',
  'sub',
  'sup',
  'table',
  'tbody',
  'td',
  'tfoot',
  'th',
  'thead',
  'tr',
  'ul',
]);
export const ATTRIBUTES: ReadonlySet<string> = new Set([
  'class',
  'colspan',
  'dir',
  'headers',
  'id',
  'lang',
  'rowspan',
  'scope',
  'title',
]);
const EMPTY: ReadonlySet<string> = new Set(['br', 'hr']);

/** The narratives of one case, each a `div` in the XHTML namespace, fit for `Narrative.div`. */
export interface ReportNarrative {
  readonly title: string;
  /** Patient, case, status, notices and caution, without the sections: what stands above them in a document. */
  readonly header: string;
  /** The whole report in one `div`. */
  readonly whole: string;
  /** One `div` a section, in reading order. */
  readonly sections: readonly { readonly key: SectionKey; readonly title: string; readonly div: string }[];
}

/** Renders the full report as FHIR narratives. */
export function renderNarrative(view: ReportView, templates: Templates): ReportNarrative {
  const data = { lexicon: lexicon(view.language), timeline: '', pictures: [], dose: '' };
  const div = (name: string, context: object) => narrativeDiv(name, templates.render(name, context, data));
  return {
    title: view.title,
    header: div('shared/narrative/header', view),
    whole: div('record/xhtml', view),
    sections: view.sections.map(section => ({
      key: section.key,
      title: section.title,
      div: div('shared/narrative/section', { ...section, language: view.language }),
    })),
  };
}

/**
 * Reads what a template made and writes it anew, so that one serializer decides what every narrative holds:
 * allowed lower-case tags and attributes, characters written out, no white space between tags.
 */
export function narrativeDiv(template: string, source: string): string {
  const refuse = (why: string): never => {
    throw new CasetallyError('template-broken', `Template '${template}' makes no FHIR narrative: ${why}.`);
  };
  let out = '';
  let depth = 0;
  let content = false;
  const parser = new SaxesParser({ xmlns: true, fragment: false });
  parser.on('error', error => refuse(error.message));
  parser.on('doctype', () => refuse('it has a document type'));
  parser.on('processinginstruction', () => refuse('it has a processing instruction'));
  parser.on('cdata', () => refuse('it has a CDATA section'));
  parser.on('opentag', ({ name, uri, attributes }) => {
    if (depth === 0 && name !== 'div') refuse('it does not start with a div');
    if (uri !== XHTML || !ELEMENTS.has(name)) refuse(`it has a ${name} element`);
    const kept = Object.values(attributes).filter(attribute => attribute.name !== 'xmlns');
    for (const attribute of kept)
      if (!ATTRIBUTES.has(attribute.name)) refuse(`it has the attribute ${attribute.name}`);
    const written = kept.map(attribute => ` ${attribute.name}="${escaped(attribute.value)}"`).join('');
    out += `<${name}${depth === 0 ? ` xmlns="${XHTML}"` : ''}${written}${EMPTY.has(name) ? '/' : ''}>`;
    depth += 1;
  });
  parser.on('closetag', ({ name }) => {
    depth -= 1;
    if (!EMPTY.has(name)) out += `</${name}>`;
  });
  parser.on('text', text => {
    const shown = text.replace(/[ \t\r\n]+/g, ' ');
    if (shown === ' ' && /\n/.test(text)) return;
    content ||= shown.trim() !== '';
    out += escaped(shown);
  });
  parser.write(source.trim()).close();
  if (!content) refuse('it has no words in it');
  return out;
}

function escaped(text: string): string {
  return text.replace(/&/g, '&amp;').replace(/</g, '&lt;').replace(/>/g, '&gt;').replace(/"/g, '&quot;');
}
