import { readFileSync } from 'node:fs';
import { SaxesParser } from 'saxes';

/**
 * The rules txt-1 and txt-2 as FHIR R4 states them: names of elements and attributes are read from the XPath of the
 * constraints in the published StructureDefinition Narrative (npm package hl7.fhir.r4.examples 4.0.1,
 * https://hl7.org/fhir/R4/narrative.html).
 */
interface Definition {
  readonly snapshot: {
    readonly element: readonly {
      readonly constraint?: readonly { readonly key: string; readonly xpath: string }[];
    }[];
  };
}

const definition: Definition = JSON.parse(
  readFileSync(
    new URL('../../../node_modules/hl7.fhir.r4.examples/StructureDefinition-Narrative.json', import.meta.url),
    'utf8',
  ),
);

const xpath = (key: string): string => {
  const found = definition.snapshot.element.flatMap(e => e.constraint ?? []).find(c => c.key === key);
  if (!found) throw new Error(`no constraint ${key}`);
  return found.xpath;
};

const quoted = (text: string) => [...text.matchAll(/'([^']+)'/g)].map(match => match[1] ?? '');
const [elementPart = '', attributePart = ''] = xpath('txt-1').split('/@*');

/** Allowed by txt-1. */
export const allowedElements: ReadonlySet<string> = new Set(quoted(elementPart));
export const allowedAttributes: ReadonlySet<string> = new Set(quoted(attributePart));

/** Every way in which a narrative breaks the rules; empty when it keeps them. Throws when it is not well-formed XML. */
export function narrativeFaults(div: string): string[] {
  const faults: string[] = [];
  let words = false;
  let depth = 0;
  const parser = new SaxesParser({ xmlns: true });
  parser.on('error', error => {
    throw error;
  });
  parser.on('opentag', tag => {
    if (depth === 0 && tag.name !== 'div') faults.push('the root is no div');
    depth += 1;
    if (tag.uri !== 'http://www.w3.org/1999/xhtml') faults.push(`${tag.name} is not in the XHTML namespace`);
    if (!allowedElements.has(tag.local)) faults.push(`element ${tag.name}`);
    for (const attribute of Object.values(tag.attributes)) {
      if (attribute.name === 'xmlns') continue;
      if (!allowedAttributes.has(attribute.name)) faults.push(`attribute ${attribute.name}`);
      // Chosen stricter than the standard: our narratives link to nothing and show no picture.
      if (['href', 'src'].includes(attribute.name)) faults.push(`link ${attribute.value}`);
    }
  });
  parser.on('closetag', () => {
    depth -= 1;
  });
  parser.on('text', text => {
    // txt-2: some non-whitespace content.
    words ||= text.trim() !== '';
  });
  parser.write(div).close();
  if (!words) faults.push('no words (txt-2)');
  return faults;
}
