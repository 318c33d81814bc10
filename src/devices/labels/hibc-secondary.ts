import { finding } from '../../findings/finding.js';
import { type Message, message } from '../../findings/message.js';
import { centuryOf, isoDay, isoDayOfYear, isoMonth } from './dates.js';
import { elementNamed } from './element.js';
import type { Source } from './source.js';
import { shown, sliceSource } from './source.js';
import type { LabelDraft, LabelOptions } from './types.js';

interface DateForm {
  readonly length: number;
  readonly read: (digits: string, today: string) => { date: string | undefined; hour?: string };
}

const number = (digits: string, from: number, to: number) => Number(digits.slice(from, to));

const yymmdd = (d: string, today: string) =>
  isoDay(centuryOf(number(d, 0, 2), today), number(d, 2, 4), number(d, 4, 6));
const yyjjj = (d: string, today: string) => isoDayOfYear(centuryOf(number(d, 0, 2), today), number(d, 2, 5));
const dayOfYear: DateForm = { length: 5, read: (d, today) => ({ date: yyjjj(d, today) }) };
const monthOnly: DateForm = {
  length: 4,
  read: (d, today) => ({ date: isoMonth(centuryOf(number(d, 2, 4), today), number(d, 0, 2)) }),
};

/** The date forms by the character after $$ or $$+. */
const dateForms: Readonly<Record<string, DateForm>> = {
  '2': {
    length: 6,
    read: (d, today) => ({
      date: isoDay(centuryOf(number(d, 4, 6), today), number(d, 0, 2), number(d, 2, 4)),
    }),
  },
  '3': { length: 6, read: (d, today) => ({ date: yymmdd(d, today) }) },
  '4': { length: 8, read: (d, today) => ({ date: yymmdd(d, today), hour: d.slice(6, 8) }) },
  '5': dayOfYear,
  '6': { length: 7, read: (d, today) => ({ date: yyjjj(d, today), hour: d.slice(5, 7) }) },
};

type Text = 'lot' | 'serial';
const names: Record<Text, string> = { lot: 'lot', serial: 'serial number' };

/**
 * Reads one segment of production data (without +, link and check characters) into the draft: a secondary
 * structure ($, $+, $$, $$+ or a five-digit date) or a supplement (S, 14D, 16D, Q).
 */
export function readSegment(draft: LabelDraft, segment: Source, options: LabelOptions): void {
  const { text } = segment;
  const flag = /^(\$\$\+|\$\$|\$\+|\$|16D|14D|S|Q)/.exec(text)?.[0];
  const rest = sliceSource(segment, flag?.length ?? 0);
  if (flag === '$$' || flag === '$$+') readFlagged(draft, flag, rest, options);
  else if (flag === '$') setText(draft, 'lot', flag, rest, options);
  else if (flag === '$+' || flag === 'S') setText(draft, 'serial', flag, rest, options);
  else if (flag === '14D' || flag === '16D') readLongDate(draft, flag, rest, options);
  else if (flag === 'Q') setQuantity(draft, flag, rest, options);
  else if (/^\d{5}/.test(text)) {
    setExpiry(draft, 'YYJJJ', sliceSource(segment, 0, 5), dayOfYear, options);
    setText(draft, 'lot', 'YYJJJ', sliceSource(segment, 5), options);
  } else complain(draft, segment, message('char.production'), options);
}

/** After $$ or $$+: perhaps a quantity, then a date form, then lot or serial number. */
function readFlagged(draft: LabelDraft, flag: string, start: Source, options: LabelOptions): void {
  const part: Text = flag.endsWith('+') ? 'serial' : 'lot';
  const counted = start.text.startsWith('8') ? 2 : start.text.startsWith('9') ? 5 : 0;
  if (counted === 0) {
    readDated(draft, part, flag, start, options, false);
    return;
  }
  const id = flag + start.text.charAt(0);
  setQuantity(draft, id, sliceSource(start, 1, 1 + counted), options, counted);
  const rest = sliceSource(start, 1 + counted);
  if (rest.text !== '') readDated(draft, part, id, rest, options, true);
}

/** The date form (7: none; 0 and 1: the month itself begins), then lot or serial number. */
function readDated(
  draft: LabelDraft,
  part: Text,
  id: string,
  rest: Source,
  options: LabelOptions,
  afterQuantity: boolean,
): void {
  const flag = rest.text.charAt(0);
  if (flag === '7') {
    setText(draft, part, `${id}7`, sliceSource(rest, 1), options);
    return;
  }
  const month = flag === '0' || flag === '1';
  const form = month ? monthOnly : dateForms[flag];
  const begin = month ? 0 : 1;
  const end = begin + (form?.length ?? 0);
  // After a quantity the date may be left out altogether; then what follows does not have its shape.
  const shaped = /^\d+$/.test(rest.text.slice(begin, end)) && rest.text.length >= end;
  if (afterQuantity && !shaped) {
    const params = { at: `${rest.at(0)}`, what: elementNamed(names[part]) };
    draft.findings.push(finding('label.date-flag-missing', options.path ?? 'label', params));
    setText(draft, part, id, rest, options);
  } else if (form === undefined) complain(draft, rest, message('char.dateForm'), options);
  else {
    setExpiry(draft, month ? id : id + flag, sliceSource(rest, begin, end), form, options);
    setText(draft, part, month ? id : id + flag, sliceSource(rest, end), options);
  }
}

function setExpiry(
  draft: LabelDraft,
  id: string,
  digits: Source,
  form: DateForm,
  options: LabelOptions,
): void {
  draft.elements.push({ id, name: 'expiry date', raw: digits.text, at: digits.at(0) });
  if (!wholeNumber(draft, digits, form.length, 'expiry date', options)) return;
  const { date, hour } = form.read(digits.text, options.today);
  const badHour = Number(hour) > 23;
  if (date === undefined || badHour) noSuchDate(draft, digits, 'expiry date', options);
  else {
    keepExpiry(draft, date, digits, options);
    if (hour !== undefined && draft.expires === date) draft.expiresHour ??= hour;
  }
}

function keepExpiry(draft: LabelDraft, date: string, digits: Source, options: LabelOptions): void {
  if (!keep(draft, 'expires', 'expiry date', date, digits, options)) return;
  draft.expiresPrecision = date.length === 7 ? 'month' : 'day';
}

/** Keeps a part that is not there yet; another value than that which is there is told. */
function keep(
  draft: LabelDraft,
  part: 'expires' | 'manufactured' | 'quantity',
  name: string,
  value: string,
  { at }: Source,
  options: LabelOptions,
): boolean {
  const first = draft[part];
  if (first !== undefined && first !== value) {
    const params = { what: elementNamed(name), first, at: `${at(0)}`, second: value };
    draft.findings.push(finding('label.repeated', options.path ?? 'label', params));
    return false;
  }
  draft[part] = value;
  return true;
}

/** 14D and 16D: eight digits, year first. */
function readLongDate(draft: LabelDraft, id: '14D' | '16D', digits: Source, options: LabelOptions): void {
  const what = id === '14D' ? 'expiry date' : 'production date';
  draft.elements.push({ id, name: what, raw: digits.text, at: digits.at(0) });
  if (!wholeNumber(draft, digits, 8, what, options)) return;
  const date = isoDay(number(digits.text, 0, 4), number(digits.text, 4, 6), number(digits.text, 6, 8));
  if (date === undefined) noSuchDate(draft, digits, what, options);
  else if (id === '14D') keepExpiry(draft, date, digits, options);
  else keep(draft, 'manufactured', what, date, digits, options);
}

function setQuantity(
  draft: LabelDraft,
  id: string,
  digits: Source,
  options: LabelOptions,
  length?: number,
): void {
  draft.elements.push({ id, name: 'quantity', raw: digits.text, at: digits.at(0) });
  if (wholeNumber(draft, digits, length ?? Math.max(1, digits.text.length), 'quantity', options)) {
    keep(draft, 'quantity', 'quantity', String(Number(digits.text)), digits, options);
  }
}

/** Lot or serial number: up to 18 capital letters and digits (13 after a five-digit date); may be empty. */
function setText(draft: LabelDraft, part: Text, id: string, value: Source, options: LabelOptions): void {
  const path = options.path ?? 'label';
  const what = elementNamed(names[part]);
  if (value.text === '') return;
  draft.elements.push({ id, name: names[part], raw: value.text, at: value.at(0) });
  // No lot or serial number holds a space: print broken over two lines leaves one behind.
  const text = value.text.replaceAll(' ', '');
  if (text !== value.text) {
    const at = `${value.at(value.text.indexOf(' '))}`;
    draft.findings.push(finding('label.spaces', path, { what, at }, { severity: 'warning' }));
  }
  const most = id === 'YYJJJ' ? 13 : 18;
  if (text.length > most) {
    const params = {
      what,
      at: `${value.at(0)}`,
      found: `${text.length}`,
      expected: message('char.atMost', { n: `${most}` }),
    };
    draft.findings.push(finding('label.length', path, params));
  }
  const odd = value.text.split('').findIndex(character => !/[A-Z0-9 ]/.test(character));
  if (odd >= 0) {
    const params = { what, at: `${value.at(odd)}`, found: shown(value.text[odd]) };
    draft.findings.push(finding('label.unusual-character', path, params));
  }
  const before = draft[part];
  if (before === undefined) draft[part] = text;
  else if (before !== text) {
    draft.findings.push(
      finding('label.repeated', path, { what, first: before, at: `${value.at(0)}`, second: text }),
    );
  }
}

function wholeNumber(
  draft: LabelDraft,
  digits: Source,
  length: number,
  what: string,
  options: LabelOptions,
): boolean {
  const { text } = digits;
  const path = options.path ?? 'label';
  const wrong = text.split('').findIndex(character => !/\d/.test(character));
  if (wrong >= 0) {
    const params = {
      what: elementNamed(what),
      at: `${digits.at(wrong)}`,
      found: shown(text[wrong]),
      expected: message('char.digit'),
    };
    draft.findings.push(finding('label.character', path, params));
  } else if (text.length !== length) {
    const params = {
      what: elementNamed(what),
      at: `${digits.at(0)}`,
      found: `${text.length}`,
      expected: `${length}`,
    };
    draft.findings.push(finding('label.length', path, params));
  }
  return wrong < 0 && text.length === length;
}

function noSuchDate(draft: LabelDraft, digits: Source, what: string, options: LabelOptions): void {
  const params = { what: elementNamed(what), at: `${digits.at(0)}`, found: digits.text };
  draft.findings.push(finding('label.date', options.path ?? 'label', params));
}

function complain(draft: LabelDraft, source: Source, expected: Message, options: LabelOptions): void {
  const params = { at: `${source.at(0)}`, found: shown(source.text[0]), expected };
  draft.findings.push(finding('label.structure', options.path ?? 'label', params));
}
