import { finding } from '../../findings/finding.js';
import { type Message, message } from '../../findings/message.js';
import { isoDayOfYear, millenniumOf } from './dates.js';
import { elementNamed } from './element.js';
import type { Source } from './source.js';
import { shown, sliceSource, withoutSpaces } from './source.js';
import type { LabelDraft, LabelElement, LabelOptions } from './types.js';

type Part = 'di' | 'lot' | 'serial' | 'expires' | 'manufactured' | 'distinct';

/** One ISBT 128 data structure: its identifier, length and alphabet. */
interface Structure {
  readonly id: string;
  readonly name: string;
  readonly min: number;
  readonly max: number;
  readonly test: RegExp;
  readonly words: Message;
  readonly part?: Part;
  readonly blood?: boolean;
}

const capitals = { test: /[A-Z0-9]/, words: message('char.capital') };
const letters = { test: /[A-Za-z0-9]/, words: message('char.letter') };
const digits = { test: /\d/, words: message('char.digit') };

/** From ICCBBA ST-017 and IMDRF UDI WG/N48, appendix A. Longer identifiers come first. */
const structures: readonly Structure[] = [
  { id: '&,1', name: 'lot', min: 1, max: 18, ...capitals, part: 'lot' },
  { id: '&)', name: 'lot', min: 10, max: 10, ...letters, part: 'lot' },
  { id: '=/', name: 'device identifier', min: 16, max: 16, ...capitals, part: 'di' },
  { id: '=)', name: 'device identifier', min: 10, max: 10, ...letters, part: 'di', blood: true },
  { id: '=,', name: 'serial number', min: 6, max: 6, ...capitals, part: 'serial' },
  { id: '=>', name: 'expiry date', min: 6, max: 6, ...digits, part: 'expires' },
  { id: '=}', name: 'production date', min: 6, max: 6, ...digits, part: 'manufactured' },
  { id: '=+', name: 'compound message header', min: 5, max: 5, ...digits },
];

/** The donation identification number: the only structure whose identifier's second character is data. */
const donation: Structure = {
  id: '=',
  name: 'donation identification number',
  min: 15,
  max: 15,
  ...capitals,
  part: 'distinct',
};
/** Facility (5), year (2), number (6), and two flag characters that are 00 on devices. */
const donationShape = [
  /[A-NP-Z1-9]/,
  /[A-NP-Z0-9]/,
  /[A-NP-Z0-9]/,
  ...Array<RegExp>(10).fill(/\d/),
  /0/,
  /0/,
];

/**
 * Fills a draft from an ISBT 128 label. It has no check character: only the shape of each field is checked.
 * Print sets spaces between the fields; a space anywhere else is pointed out.
 */
export function fillFromIccbba(
  draft: LabelDraft,
  printed: Source,
  options: LabelOptions,
): { blood: boolean } {
  const path = options.path ?? 'label';
  draft.issuer = 'iccbba';
  draft.check = 'none';
  const odd = /\s(?![=&\s]|$)/.exec(printed.text);
  if (odd !== null) {
    const params = { what: elementNamed('label'), at: `${printed.at(odd.index)}` };
    draft.findings.push(finding('label.spaces', path, params, { severity: 'warning' }));
  }
  const source = withoutSpaces(printed);
  const { text } = source;
  let blood = false;
  let i = 0;
  let header: number | undefined;
  let count = 0;
  while (i < text.length) {
    const structure =
      structures.find(({ id }) => text.startsWith(id, i)) ??
      (text[i] === '=' && donationStarts(text, i) ? donation : undefined);
    if (structure === undefined) {
      const expected = message('char.isbt');
      const spot = text[i] === '=' || text[i] === '&' ? i + 1 : i;
      draft.findings.push(
        finding('label.structure', path, { at: `${source.at(spot)}`, found: shown(text[spot]), expected }),
      );
      break;
    }
    const start = i + structure.id.length;
    const next = /[=&]/.exec(text.slice(start, start + structure.max));
    const end = Math.min(start + (next?.index ?? structure.max), text.length);
    const value = sliceSource(source, start, end);
    if (structure.id !== '=+') count += 1;
    else if (/^\d\d/.test(value.text)) header = Number(value.text.slice(0, 2));
    readStructure(draft, structure, value, options);
    if (structure.blood === true) blood = true;
    i = end;
  }
  if (header !== undefined && header !== count) {
    draft.findings.push(finding('label.header-count', path, { expected: `${header}`, found: `${count}` }));
  }
  // The header belongs to the symbol; print leaves it out.
  draft.carrierHRF = draft.elements
    .filter(e => e.id !== '=+')
    .map((e: LabelElement) => e.id + e.raw)
    .join('');
  return { blood };
}

function donationStarts(text: string, at: number): boolean {
  return /[A-NP-Z1-9]/.test(text.charAt(at + 1));
}

/** The facility code at the start of a device identifier never holds the letter O. */
function characterRule(structure: Structure, index: number): RegExp {
  if (structure === donation) return donationShape[index] ?? structure.test;
  return structure.id === '=/' && index < 5 ? /[A-NP-Z0-9]/ : structure.test;
}

function readStructure(draft: LabelDraft, structure: Structure, value: Source, options: LabelOptions): void {
  const path = options.path ?? 'label';
  const { text } = value;
  const what = elementNamed(structure.name);
  draft.elements.push({ id: structure.id, name: structure.name, raw: text, at: value.at(0) });
  const wrong = text.split('').findIndex((c, i) => !characterRule(structure, i).test(c));
  if (wrong >= 0) {
    const expected = structure === donation ? message('char.donation') : structure.words;
    draft.findings.push(
      finding('label.character', path, {
        what,
        at: `${value.at(wrong)}`,
        found: shown(text[wrong]),
        expected,
      }),
    );
    return;
  }
  if (text.length < structure.min) {
    const expected =
      structure.min === structure.max
        ? `${structure.max}`
        : message('range', { from: `${structure.min}`, to: `${structure.max}` });
    draft.findings.push(
      finding('label.length', path, { what, at: `${value.at(0)}`, found: `${text.length}`, expected }),
    );
    return;
  }
  const { part } = structure;
  if (part === undefined) return;
  const first = draft[part];
  if (first !== undefined) {
    draft.findings.push(finding('label.repeated', path, { what, first, at: `${value.at(0)}`, second: text }));
    return;
  }
  if (part === 'serial' && text === '000000')
    draft.findings.push(finding('label.serial-zero', path, { at: `${value.at(0)}` }));
  if (part !== 'expires' && part !== 'manufactured') {
    draft[part] = text;
    return;
  }
  const date = isoDayOfYear(millenniumOf(Number(text.slice(0, 3)), options.today), Number(text.slice(3)));
  if (date === undefined)
    draft.findings.push(finding('label.date', path, { what, at: `${value.at(0)}`, found: text }));
  else draft[part] = date;
  if (part === 'expires' && date !== undefined) draft.expiresPrecision = 'day';
}
