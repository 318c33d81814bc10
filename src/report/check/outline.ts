import { SaxesParser } from 'saxes';
import { ATTRIBUTES, ELEMENTS } from '../render/narrative.js';
import { HOSTILE_MARK } from './hostile.js';

/** Elements of a page beside those of a narrative. */
const PAGE: ReadonlySet<string> = new Set([
  ...ELEMENTS,
  ...['html', 'head', 'meta', 'title', 'style', 'body', 'header', 'main', 'footer', 'section', 'article'],
  ...['aside', 'address', 'figure', 'figcaption', 'abbr', 'time', 'col', 'colgroup'],
]);
const META: ReadonlySet<string> = new Set(['charset', 'name', 'content', 'http-equiv']);

/** Title of its column on a cell, for narrow screens. */
const LABEL = 'data-label';

/** What a page or fragment is made of. */
export interface Outline {
  /** What a reader sees, pieces parted by a space: without head, comments and what is for screen readers only. */
  readonly text: string;
  readonly elements: ReadonlySet<string>;
  readonly attributes: ReadonlySet<string>;
  readonly style: string;
  /** Ways in which it is no safe page, in words. */
  readonly faults: readonly string[];
}

/** Reads a page or a fragment as XML and says what it is made of. */
export function outlineOf(markup: string, page: boolean): Outline {
  const elements = new Set<string>();
  const attributes = new Set<string>();
  const faults = new Set<string>();
  const shown: string[] = [];
  const open: { readonly name: string; readonly unseen: boolean }[] = [];
  let style = '';
  let policy = false;
  const parser = new SaxesParser();
  parser.on('error', error => faults.add(`it is not well-formed: ${error.message.replace(/\n/g, ' ')}`));
  parser.on('opentag', ({ name, attributes: given }) => {
    elements.add(name);
    if (page && !PAGE.has(name)) faults.add(`it has a ${name} element`);
    for (const [key, value] of Object.entries(given)) {
      attributes.add(key);
      if (page && !allowed(name, key)) faults.add(`it has the attribute ${key} on ${name}`);
      if (value.includes(HOSTILE_MARK) && key !== 'title' && key !== LABEL)
        faults.add(`it puts text of the record into the attribute ${key}`);
    }
    if (name === 'meta' && given['http-equiv'] !== undefined) {
      policy ||= isPolicy(given['http-equiv'], given['content'] ?? '');
      if (!isPolicy(given['http-equiv'], given['content'] ?? ''))
        faults.add('it has a meta http-equiv other than the shipped content policy');
    }
    const quiet = /(?:^|\s)quiet(?:\s|$)/.test(given['class'] ?? '');
    open.push({ name, unseen: quiet || name === 'head' || (open.at(-1)?.unseen ?? false) });
  });
  parser.on('closetag', () => {
    open.pop();
  });
  parser.on('text', text => {
    if (open.at(-1)?.name === 'style') style += text;
    else if (!open.at(-1)?.unseen) shown.push(text);
  });
  parser.write(markup).close();
  if (page && !policy) faults.add('it has no content policy');
  for (const fault of styleFaults(style)) faults.add(fault);
  return { text: shown.join(' '), elements, attributes, style, faults: [...faults] };
}

const isPolicy = (name: string, content: string) =>
  name.toLowerCase() === 'content-security-policy' &&
  /^default-src 'none'; style-src 'unsafe-inline'(; img-src data:)?$/.test(content);

function allowed(element: string, attribute: string): boolean {
  if (element === 'td' && attribute === LABEL) return true;
  return ATTRIBUTES.has(attribute) || (element === 'meta' && META.has(attribute));
}

function styleFaults(style: string): string[] {
  const faults: string[] = [];
  if (
    /display\s*:\s*none|visibility\s*:\s*(hidden|collapse)|opacity\s*:\s*0(?![.\d])|font-size\s*:\s*0(?![.\d])/i.test(
      style,
    )
  )
    faults.push('its style hides what it prints');
  if (/@import|url\s*\(|expression\s*\(/i.test(style)) faults.push('its style refers to something outside');
  // In a style, text is safe only as `cssText` writes it: the character after the mark is then an escape.
  if (new RegExp(`${HOSTILE_MARK}(?!\\\\)`).test(style))
    faults.push('it prints text of the record into its style without cssText');
  return faults;
}
