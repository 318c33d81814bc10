import type { CaseRecord } from '../../../src/record/schema/record.js';

/** Names whose values are chosen from a list, refer to something, or are read by rules: not free text. */
const notFree = new Set([
  'status',
  'date',
  'timeZone',
  'category',
  'urgency',
  'key',
  'role',
  'author',
  'by',
  'takenBy',
  'kind',
  'route',
  'for',
  'side',
  'guidance',
  'flowBefore',
  'flowAfter',
  'success',
  'family',
  'use',
  'do',
  'device',
  'part',
  'with',
  'replaces',
  'over',
  'through',
  'across',
  'target',
  'access',
  'state',
  'specimen',
  'image',
  'about',
  'from',
  'severity',
  'scale',
  'treatment',
  'stay',
  'harm',
  'overall',
  'bloodLoss',
  'purpose',
  'is',
  'sex',
  'pregnant',
  'iso',
  'clock',
  'precision',
  'code',
  'value',
  'unit',
  'comparator',
  'label',
  'udi',
]);

/** The record with `text` put into every place that a person writes freely. */
export function everyText(record: CaseRecord, text: string): CaseRecord;
export function everyText(value: unknown, text: string, name?: string): unknown;
export function everyText(value: unknown, text: string, name = ''): unknown {
  if (typeof value === 'string') return notFree.has(name) ? value : text;
  if (Array.isArray(value)) return value.map(child => everyText(child, text, name));
  if (typeof value !== 'object' || value === null) return value;
  return Object.fromEntries(Object.entries(value).map(([key, child]) => [key, everyText(child, text, key)]));
}
