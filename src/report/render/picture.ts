import { SaxesParser } from 'saxes';
import { CasetallyError } from '../../findings/errors.js';

/** Elements that pictures are drawn with. */
const ELEMENTS: ReadonlySet<string> = new Set([
  'svg',
  'g',
  'title',
  'desc',
  'defs',
  'rect',
  'circle',
  'ellipse',
  'line',
  'polyline',
  'polygon',
  'path',
  'text',
  'tspan',
  'pattern',
  'marker',
  'use',
  'style',
  'clipPath',
  'symbol',
]);

/**
 * Checks that a picture is plain SVG: well-formed, no script, no handler, nothing from outside.
 * Gives it back unchanged; anything else is a programmer's error.
 */
export function checkPicture(svg: string): string {
  const refuse = (why: string): never => {
    throw new CasetallyError('usage', `A picture cannot go into a page: ${why}.`);
  };
  const parser = new SaxesParser();
  let first = true;
  parser.on('error', error => refuse(error.message));
  parser.on('doctype', () => refuse('it has a document type'));
  parser.on('processinginstruction', () => refuse('it has a processing instruction'));
  parser.on('opentag', tag => {
    if (first && tag.name !== 'svg') refuse('it does not start with an svg element');
    first = false;
    if (!ELEMENTS.has(tag.name)) refuse(`it has a ${tag.name} element`);
    for (const [name, value] of Object.entries(tag.attributes)) {
      if (/^on/i.test(name)) refuse(`it has a handler ${name}`);
      if (/href$/i.test(name) && !value.startsWith('#')) refuse('it links to something outside');
      if (/url\s*\(\s*['"]?(?!#)/i.test(value)) refuse('it refers to something outside');
    }
  });
  parser.on('text', text => {
    if (/@import|url\s*\(\s*['"]?(?!#)/i.test(text)) refuse('its style refers to something outside');
  });
  parser.write(svg).close();
  return svg;
}
