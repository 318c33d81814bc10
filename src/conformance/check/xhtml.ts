import { SaxesParser } from 'saxes';

/** A start tag of a narrative. */
export interface Tag {
  /** Name as written, with its prefix. */
  readonly name: string;
  readonly local: string;
  readonly uri: string;
  readonly attributes: readonly (readonly [name: string, value: string])[];
  /** Nothing is open around it. */
  readonly outermost: boolean;
}

/** What a narrative is made of. */
export interface Xhtml {
  readonly tags: readonly Tag[];
  /** Some text other than white space, or a CDATA section. */
  readonly hasText: boolean;
  readonly doctype: boolean;
  /** The first thing that is not well-formed. */
  readonly problem: string | undefined;
}

/** Most elements within one another: the parser looks up the prefix of each through all that are open. */
const MOST_OPEN = 500;
const TOO_DEEP = `elements are nested more than ${MOST_OPEN} levels deep`;

const XHTML = 'http://www.w3.org/1999/xhtml';

/** Reads the XHTML of a narrative: the plain form by a scan, everything else by the XML parser. */
export function readXhtml(div: string): Xhtml {
  return readPlain(div) ?? readXml(div);
}

// What the scan leaves to the parser: characters that XML forbids, those that need decoding, ends of CDATA.
const SPECIAL = /[^\t\n\r\u0020-\ud7ff\ue000-\ufffd]|]]>|&(?!(?:amp|lt|gt|quot|apos|#160|#xA0);)/;
const TAG = /<([A-Za-z][A-Za-z0-9]*)((?:[ \t\r\n]+[A-Za-z:]+="[^"<&\t\r\n]*")*)[ \t\r\n]*(\/?)>/y;
const ATTRIBUTE = /([A-Za-z:]+)="([^"]*)"/g;
const WORD = /[^ \t\r\n]/;

/**
 * Reads one element in the XHTML namespace without declarations, comments, prefixes and character
 * references inside attributes. Gives nothing for any other text, well-formed or not.
 */
export function readPlain(div: string): Xhtml | undefined {
  if (SPECIAL.test(div)) return undefined;
  const tags: Tag[] = [];
  const open: string[] = [];
  const known = new Map<string, Tag['attributes'] | undefined>([['', []]]);
  let hasText = false;
  let at = 0;
  while (at < div.length) {
    const next = div.indexOf('<', at);
    const end = next < 0 ? div.length : next;
    if ((open.length === 0 || !hasText) && end > at && WORD.test(div.slice(at, end))) {
      if (open.length === 0) return undefined;
      hasText = true;
    }
    if (next < 0) break;
    if (div.charCodeAt(next + 1) === 47) {
      const close = `</${open.pop()}>`;
      if (!div.startsWith(close, next)) return undefined;
      at = next + close.length;
      continue;
    }
    TAG.lastIndex = next;
    const [, name, written = '', slash] = TAG.exec(div) ?? [];
    const outermost = open.length === 0;
    // The same attributes come again and again, as in the cells of a table.
    let attributes = known.get(written);
    if (!attributes) {
      attributes = plainAttributes(written);
      known.set(written, attributes);
    }
    if (name === undefined || !attributes || (outermost && tags.length > 0)) return undefined;
    if (outermost && !attributes.some(([key]) => key === 'xmlns')) return undefined;
    tags.push({ name, local: name, uri: XHTML, attributes, outermost });
    if (slash === '' && open.push(name) > MOST_OPEN) return undefined;
    at = TAG.lastIndex;
  }
  return open.length === 0 && tags.length > 0
    ? { tags, hasText, doctype: false, problem: undefined }
    : undefined;
}

function plainAttributes(written: string): [string, string][] | undefined {
  const found: [string, string][] = [];
  for (const [, name = '', value = ''] of written.matchAll(ATTRIBUTE)) {
    if (name.includes(':') && name !== 'xml:lang') return undefined;
    if (name === 'xmlns' && value !== XHTML) return undefined;
    if (found.some(([other]) => other === name)) return undefined;
    found.push([name, value]);
  }
  return found;
}

/** Reads any text; what is not well-formed becomes the problem. */
export function readXml(div: string): Xhtml {
  const tags: Tag[] = [];
  let hasText = false;
  let doctype = false;
  let problem: string | undefined;
  let depth = 0;
  const parser = new SaxesParser({ xmlns: true, position: false });
  parser.on('error', error => {
    problem ??= error.message.replace(/^\d+:\d+: /, '');
  });
  parser.on('doctype', () => {
    doctype = true;
  });
  parser.on('opentag', ({ name, local, uri, attributes }) => {
    const given = Object.entries(attributes).map(([key, { value }]) => [key, value] as const);
    tags.push({ name, local, uri, attributes: given, outermost: depth === 0 });
    depth += 1;
    if (depth > MOST_OPEN) throw new RangeError(TOO_DEEP);
  });
  parser.on('closetag', () => {
    depth -= 1;
  });
  parser.on('text', text => {
    if (!hasText && WORD.test(text)) hasText = true;
  });
  parser.on('cdata', () => {
    hasText = true;
  });
  try {
    parser.write(div).close();
  } catch (error) {
    if (!(error instanceof RangeError)) throw error;
    problem ??= error.message;
  }
  return { tags, hasText, doctype, problem };
}
