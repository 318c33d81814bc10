import { SaxesParser } from 'saxes';

/**
 * True when two XHTML texts are the same document, however they are written: empty elements, the order of
 * attributes, character references and runs of white space may differ. Servers parse and write narrative anew.
 */
export function sameXhtml(a: string, b: string): boolean {
  if (a === b) return true;
  const first = tokens(a);
  return first !== undefined && first === tokens(b);
}

/** One word for each event of the document, joined; undefined when it is not well-formed. */
function tokens(text: string): string | undefined {
  const parser = new SaxesParser();
  const words: string[] = [];
  let run = '';
  const flush = () => {
    const shown = run.replace(/\s+/g, ' ').trim();
    if (shown !== '') words.push(`t${shown}`);
    run = '';
  };
  let broken = false;
  parser.on('error', () => {
    broken = true;
  });
  parser.on('text', part => {
    run += part;
  });
  parser.on('opentag', ({ name, attributes }) => {
    flush();
    const pairs = Object.entries(attributes).map(([key, value]) => `${key}=${JSON.stringify(String(value))}`);
    words.push(`o${name} ${pairs.sort().join(' ')}`);
  });
  parser.on('closetag', ({ name }) => {
    flush();
    words.push(`c${name}`);
  });
  parser.write(text).close();
  return broken ? undefined : words.join('\n');
}
