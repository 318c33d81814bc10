import { type Finding, finding } from '../../findings/finding.js';
import { anyOf } from '../../findings/message.js';
import { elementNamed } from './element.js';
import type { Gs1Element } from './gs1-readings.js';
import { forbiddenBeside, unmetRequirements } from './gs1-readings.js';
import type { Gs1Split } from './gs1-split.js';
import { bracketed } from './gs1-split.js';
import { checkDigit, endOfMonth, gs1Date, valueFindings } from './gs1-value.js';
import type { LabelDraft, LabelOptions, LabelParts, Reading } from './types.js';

type MutableParts = { -readonly [K in keyof LabelParts]: LabelParts[K] };

/** Fills a draft from the elements of a GS1 label. */
export function fillFromGs1(draft: LabelDraft, split: Gs1Split, options: LabelOptions): void {
  const path = options.path ?? 'label';
  draft.issuer = 'gs1';
  draft.findings.push(...split.findings);
  draft.elements = split.elements.map(({ entry, value }) => ({
    id: entry.ai,
    name: entry.name,
    raw: value.text,
    at: value.at(0),
  }));
  for (const { entry, value } of split.elements) {
    draft.findings.push(...valueFindings(entry, value, options));
  }
  draft.findings.push(...togetherFindings(split.elements, path));
  Object.assign(draft, gs1Parts(split.elements, options.today));
  if (draft.di !== undefined) {
    draft.check = checkDigit(draft.di.slice(0, -1)) === draft.di.at(-1) ? 'right' : 'wrong';
  }
  if (split.readings !== undefined) {
    draft.readings = split.readings.map(elements => reading(elements, options.today));
  } else if (split.elements.length > 0) {
    draft.carrierHRF = bracketed(split.elements);
  }
}

function reading(elements: readonly Gs1Element[], today: string): Reading {
  return { text: bracketed(elements), ...gs1Parts(elements, today) };
}

/** The parts that the elements hold; a value that is no such thing (letters in a date) gives no part. */
function gs1Parts(elements: readonly Gs1Element[], today: string): LabelParts {
  const parts: MutableParts = {};
  for (const { entry, value } of elements) {
    const raw = value.text;
    if (raw === '') continue;
    if (entry.ai === '01' && /^\d{14}$/.test(raw)) parts.di ??= raw;
    if (entry.ai === '10') parts.lot ??= raw;
    if (entry.ai === '21') parts.serial ??= raw;
    if (entry.ai === '30' && /^\d+$/.test(raw)) parts.quantity ??= raw;
    if (entry.ai === '11') setDate(parts, 'manufactured', gs1Date(raw, today, true));
    if (entry.ai === '17') setDate(parts, 'expires', gs1Date(raw, today, true));
    if (entry.ai === '7003') {
      const day = gs1Date(raw.slice(0, 6), today, false);
      setDate(parts, 'expires', day);
      // The hour of another day than that which counts is none of this one.
      if (day && /^\d{10}$/.test(raw) && parts.expires === day.date) parts.expiresHour = raw.slice(6, 8);
    }
    if (entry.ai === '8008') setDate(parts, 'manufactured', gs1Date(raw.slice(0, 6), today, false));
  }
  return parts;
}

function setDate(
  parts: MutableParts,
  part: 'expires' | 'manufactured',
  read: { date: string; precision: 'day' | 'month' } | undefined,
): void {
  if (read === undefined) return;
  const before = parts[part];
  // The first counts; of a month and a day in it the day, which says more.
  const day =
    read.precision === 'day' && isMonth(parts, part) && before?.slice(0, 7) === read.date.slice(0, 7);
  if (before !== undefined && !day) return;
  if (part === 'manufactured') {
    parts.manufactured = read.date;
    return;
  }
  // Day 00 of an expiry date is the last day of the month; the element keeps what is printed.
  parts.expires = read.precision === 'month' ? endOfMonth(read.date) : read.date;
  parts.expiresPrecision = read.precision;
}

const isMonth = (parts: LabelParts, part: 'expires' | 'manufactured'): boolean =>
  part === 'expires' ? parts.expiresPrecision === 'month' : parts.manufactured?.length === 7;

/** Elements that give one date, with and without its hour. */
const ONE_DATE = [
  { what: 'expiry date', ids: ['17', '7003'] },
  { what: 'production date', ids: ['11', '8008'] },
];

/** A date that stands twice and differs, as far as both go: a month without its day fits each of them. */
function datesTwice(elements: readonly Gs1Element[], path: string): Finding[] {
  return ONE_DATE.flatMap(({ what, ids }) => {
    const [first, second] = ids
      .flatMap(id => elements.find(({ entry, value }) => entry.ai === id && /^\d{6}/.test(value.text)) ?? [])
      .map(({ value }) => ({ day: value.text.slice(0, 6), at: value.at(0) }))
      .sort((a, b) => a.at - b.at);
    if (!first || !second) return [];
    const length = [first, second].some(({ day }) => day.endsWith('00')) ? 4 : 6;
    if (first.day.slice(0, length) === second.day.slice(0, length)) return [];
    const params = { what: elementNamed(what), at: `${second.at}`, first: first.day, second: second.day };
    return [finding('label.repeated', path, params)];
  });
}

/** What is wrong with the elements as a set: repetitions, missing and forbidden company. */
function togetherFindings(elements: readonly Gs1Element[], path: string) {
  const findings = [];
  const present = elements.map(({ entry }) => entry.ai);
  const seen = new Map<string, string>();
  for (const { entry, value } of elements) {
    const what = elementNamed(entry.name);
    const at = `${value.at(0)}`;
    const first = seen.get(entry.ai);
    if (first !== undefined && first !== value.text) {
      findings.push(finding('label.repeated', path, { what, at, first, second: value.text }));
    }
    if (first === undefined) seen.set(entry.ai, value.text);
    for (const set of unmetRequirements(entry, present)) {
      const expected = anyOf(set.map(ai => `(${ai})`));
      findings.push(finding('label.needs', path, { what, at, expected }));
    }
    for (const other of forbiddenBeside(entry, present)) {
      findings.push(finding('label.excludes', path, { what, at, found: `(${other})` }));
    }
  }
  return [...findings, ...datesTwice(elements, path)];
}
