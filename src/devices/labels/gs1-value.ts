import type { Finding } from '../../findings/finding.js';
import { finding } from '../../findings/finding.js';
import { anyOf, type Message, message } from '../../findings/message.js';
import { centuryOf, daysInMonth, isoDay, isoMonth } from './dates.js';
import { elementNamed } from './element.js';
import type { Component, Gs1Entry } from './gs1-table.js';
import type { Source } from './source.js';
import { plainSource, shown } from './source.js';
import type { LabelOptions } from './types.js';

/** Of one character each. */
const set82 = /[!"%&'()*+,\-./0-9:;<=>?A-Z_a-z]/;
const set39 = /[#\-/0-9A-Z]/;
const allowed: Record<Component['type'], { test: RegExp; words: Message }> = {
  N: { test: /[0-9]/, words: message('char.digit') },
  X: { test: set82, words: message('char.text', { marks: '!"%&\'()*+,-./:;<=>?_' }) },
  Y: { test: set39, words: message('char.part') },
};

/**
 * The check digit for `digits` (without it), modulo 10 with weights 3 and 1 from the right.
 * Source: GS1 General Specifications, check digit calculation.
 */
export function checkDigit(digits: string): string {
  let sum = 0;
  for (let i = 0; i < digits.length; i += 1) {
    sum += Number(digits[digits.length - 1 - i]) * (i % 2 === 0 ? 3 : 1);
  }
  return String((10 - (sum % 10)) % 10);
}

/** A GS1 date YYMMDD; with day 00 the month alone, when `dayOptional`. Nothing when there is no such date. */
export function gs1Date(
  value: string,
  today: string,
  dayOptional: boolean,
): { date: string; precision: 'day' | 'month' } | undefined {
  if (!/^\d{6}$/.test(value)) return undefined;
  const year = centuryOf(Number(value.slice(0, 2)), today);
  const month = Number(value.slice(2, 4));
  const day = Number(value.slice(4, 6));
  if (day === 0 && dayOptional) {
    const date = isoMonth(year, month);
    return date === undefined ? undefined : { date, precision: 'month' };
  }
  const date = isoDay(year, month, day);
  return date === undefined ? undefined : { date, precision: 'day' };
}

/** `2026-04` as the last day of that month: what a GS1 expiry date with day 00 means. */
export function endOfMonth(month: string): string {
  const [y = 0, m = 0] = month.split('-').map(Number);
  return `${month}-${daysInMonth(y, m)}`;
}

/** Everything wrong with one element's value; nothing found means that it keeps to the standard. */
export function valueFindings(entry: Gs1Entry, value: Source, options: LabelOptions): Finding[] {
  const found: Finding[] = [];
  const { text } = value;
  if (text.length < entry.min || text.length > entry.max) {
    const expected =
      entry.min === entry.max
        ? `${entry.max}`
        : message('range', { from: `${entry.min}`, to: `${entry.max}` });
    found.push(
      finding('label.length', options.path ?? 'label', {
        what: elementNamed(entry.name),
        at: `${value.at(0)}`,
        found: `${text.length}`,
        expected,
      }),
    );
  }
  let start = 0;
  for (const component of entry.components) {
    const end = Math.min(start + component.max, text.length);
    found.push(...componentFindings(entry, component, value, start, end, options));
    start = end;
  }
  return found;
}

function componentFindings(
  entry: Gs1Entry,
  component: Component,
  value: Source,
  start: number,
  end: number,
  options: LabelOptions,
): Finding[] {
  const path = options.path ?? 'label';
  const part = value.text.slice(start, end);
  const { test, words } = allowed[component.type];
  const wrong = part.split('').findIndex(character => !test.test(character));
  const what = elementNamed(entry.name);
  if (wrong >= 0) {
    const at = `${value.at(start + wrong)}`;
    return [finding('label.character', path, { what, at, found: shown(part[wrong]), expected: words })];
  }
  if (part.length < component.min) return [];
  const at = `${value.at(start)}`;
  if (component.check === 'csum') {
    const expected = checkDigit(part.slice(0, -1));
    if (expected === part.at(-1)) return [];
    const params = { what, at: `${value.at(end - 1)}`, found: part.slice(-1), expected };
    return [finding('label.check-digit', path, params, { severity: options.wrongCheck ?? 'error' })];
  }
  if (component.check === 'yesno' && !/[01]/.test(part)) {
    return [finding('label.character', path, { what, at, found: shown(part), expected: anyOf(['0', '1']) })];
  }
  const dated = component.check === 'yymmd0' || component.check === 'yymmdd';
  if (dated && gs1Date(part, options.today, component.check === 'yymmd0') === undefined) {
    return [finding('label.date', path, { what, at, found: part })];
  }
  return [];
}

/** True when the value keeps to the standard in every respect. */
export function keepsToStandard(entry: Gs1Entry, text: string, today: string): boolean {
  return valueFindings(entry, plainSource(text, 0), { today }).length === 0;
}

/** All ends of values of `entry` that start at `from`, stop by `end` and keep to the standard. */
export function standardEnds(
  entry: Gs1Entry,
  text: string,
  from: number,
  end: number,
  today: string,
): number[] {
  const out: number[] = [];
  const most = Math.min(from + entry.max, end);
  for (let at = from + entry.min; at <= most; at += 1) {
    if (keepsToStandard(entry, text.slice(from, at), today)) out.push(at);
  }
  return out;
}
