import { type Finding, finding } from '../findings/finding.js';
import { codePoint } from '../record/code-point.js';

/** Not allowed in XML 1.0 (production 2, Char), the controls of C1, and halves of surrogate pairs. */
// biome-ignore lint/suspicious/noControlCharactersInRegex: these are what it looks for
const ILLEGAL = /[\u0000-\u0008\u000b\u000c\u000e-\u001f\u007f-\u0084\u0086-\u009f\ufffe\uffff]|\p{Cs}/gu;
/** Marks that turn the order of neighbouring text round (Unicode UAX 9: embeddings, overrides, isolates). */
const TURNING = /[\u202a-\u202e\u2066-\u2069]/gu;
/** Characters without width: they make two names that read alike differ. Joiners are kept inside words of scripts that need them. */
const HIDDEN =
  /[\u00ad\u180e\u200b\u2060-\u2064\ufeff]|[\u200c\u200d](?=[ -~]|$)|(?<=^|[ -~])[\u200c\u200d]/gu;

const REPLACEMENT = '\ufffd';
/** Nothing in it can be one of these. */
const PLAIN = /^[\n -~\u00a0-\u00ac\u00ae-\u024f]*$/;

/** Text fit for every format: illegal and turning characters are shown as U+FFFD, hidden ones are taken out. */
function cleanText(text: string): string {
  if (PLAIN.test(text)) return text;
  return text
    .replace(/\r\n?|[\u0085\u2028\u2029]/g, '\n')
    .replace(ILLEGAL, REPLACEMENT)
    .replace(TURNING, REPLACEMENT)
    .replace(HIDDEN, '');
}

/** Handlebars compares contexts with `!=`, which asks an object for a primitive; a symbol is no name for a template. */
const bare: object = Object.freeze(Object.create(null, { [Symbol.toPrimitive]: { value: () => '' } }));

/**
 * A deep copy with every text cleaned. Objects of the copy inherit nothing that has a name, so that a template can reach
 * nothing but what is in the view.
 */
export function clean<T>(value: T): T;
export function clean(value: unknown): unknown {
  if (typeof value === 'string') return cleanText(value);
  if (Array.isArray(value)) return value.map(child => clean(child));
  if (typeof value !== 'object' || value === null || ArrayBuffer.isView(value)) return value;
  const copy: Record<string, unknown> = Object.create(bare);
  for (const [key, child] of Object.entries(value)) copy[key] = clean(child);
  return copy;
}

const rules = [
  ['report.illegal-character', ILLEGAL],
  ['report.turning-character', TURNING],
  ['report.hidden-character', HIDDEN],
] as const;

/** Says where a record holds characters that the report replaces or leaves out. One finding a place and kind. */
export function characterFindings(record: unknown): Finding[] {
  const findings: Finding[] = [];
  const visit = (value: unknown, path: string) => {
    if (typeof value === 'string') {
      if (PLAIN.test(value)) return;
      for (const [code, pattern] of rules) {
        const found = [...new Set(value.match(pattern) ?? [])].map(codePoint);
        if (found.length > 0) findings.push(finding(code, path, { characters: found.join(', ') }));
      }
      return;
    }
    if (Array.isArray(value)) {
      value.forEach((child, index) => {
        visit(child, `${path}[${index}]`);
      });
      return;
    }
    if (typeof value !== 'object' || value === null) return;
    for (const [key, child] of Object.entries(value)) visit(child, path === '' ? key : `${path}.${key}`);
  };
  visit(record, '');
  return findings;
}
