import { SaxesParser } from 'saxes';
import { CasetallyError } from '../../findings/errors.js';

const XHTML = 'http://www.w3.org/1999/xhtml';

/**
 * Elements and attributes that the report's narratives use: a part of what FHIR allows (constraint txt-1 of
 * StructureDefinition Narrative, R4), without images, links, styles and scripts.
 */
export const ELEMENTS: ReadonlySet<string> = new Set(
  (
    'b br caption dd div dl dt em h1 h2 h3 h4 h5 h6 hr i li ol p small span strong sub sup ' +
    'table tbody td tfoot th thead tr ul'
  ).split(' '),
);
export const ATTRIBUTES: ReadonlySet<string> = new Set(
  'class colspan dir headers id lang rowspan scope title'.split(' '),
);
const EMPTY: ReadonlySet<string> = new Set(['br', 'hr']);

/* Most texts hold none of these. */
const SPACES = /[\t\r\n]| {2}/;
const MARKUP = /[&<>"]/;

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
    out += depth === 0 ? `<${name} xmlns="${XHTML}"` : `<${name}`;
    for (const attribute of Object.keys(attributes)) {
      if (attribute === 'xmlns') continue;
      if (!ATTRIBUTES.has(attribute)) refuse(`it has the attribute ${attribute}`);
      out += ` ${attribute}="${escaped(attributes[attribute]?.value ?? '')}"`;
    }
    out += EMPTY.has(name) ? '/>' : '>';
    depth += 1;
  });
  parser.on('closetag', ({ name }) => {
    depth -= 1;
    if (!EMPTY.has(name)) out += `</${name}>`;
  });
  parser.on('text', text => {
    const shown = SPACES.test(text) ? text.replace(/[ \t\r\n]+/g, ' ') : text;
    if (shown === ' ' && text.includes('\n')) return;
    content ||= shown.trim() !== '';
    out += escaped(shown);
  });
  parser.write(source.trim()).close();
  if (!content) refuse('it has no words in it');
  return out;
}

function escaped(text: string): string {
  if (!MARKUP.test(text)) return text;
  return text.replace(/&/g, '&amp;').replace(/</g, '&lt;').replace(/>/g, '&gt;').replace(/"/g, '&quot;');
}
