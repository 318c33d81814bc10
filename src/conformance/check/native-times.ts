import type { JsonObject } from '../../json/parse.js';
import { isObject } from './equal.js';
import { has, type Native } from './native.js';

/** Hand-written invariants about dates, times and repetitions. */
export const nativeTimes: readonly (readonly [string, Native])[] = [
  // per-1
  [
    'start.hasValue().not() or end.hasValue().not() or (start <= end)',
    value => (isObject(value) ? inOrder(value['start'], value['end']) : undefined),
  ],
  // tim-4, tim-5
  ['duration.exists() implies duration >= 0', value => notNegative(value, 'duration')],
  ['period.exists() implies period >= 0', value => notNegative(value, 'period')],
  // tim-9
  ["offset.empty() or (when.exists() and ((when in ('C' | 'CM' | 'CD' | 'CV')).not()))", offsetFits],
  // vs-1, and the same of the patient summary
  [
    '($this as dateTime).toString().length() >= 8',
    value => (typeof value === 'string' ? value.length >= 8 : undefined),
  ],
  [
    '$this.ofType(dateTime).empty() or ($this as dateTime).toString().length() >= 8',
    value => typeof value !== 'string' || value.length >= 8,
  ],
  // ct-use-1
  [
    "status = 'active' implies timing.ofType(Period).where(end < %resource.recordedOn).empty()",
    value => (isObject(value) && hasNoEnd(value) ? true : undefined),
  ],
];

/** A use that is over, or whose period has no end; what has one is left to the library. */
function hasNoEnd({ status, timingPeriod: period }: JsonObject): boolean {
  if (typeof status !== 'string') return false;
  if (status !== 'active' || period === undefined) return true;
  return isObject(period) && !has(period, 'end');
}

const INSTANT = /^\d{4}-\d\d-\d\dT\d\d:[0-5]\d:(?:[0-5]\d|60)(?:\.\d{1,3})?(?:Z|[+-]\d\d:\d\d)$/;
const DAY = /^\d{4}-\d\d-\d\d$/;

/** Where both are written to the same precision; what differs in precision is left to the library. */
function inOrder(start: unknown, end: unknown): boolean | undefined {
  if (typeof start !== 'string' || typeof end !== 'string')
    return start === undefined || end === undefined ? true : undefined;
  if (INSTANT.test(start) && INSTANT.test(end)) return epoch(start) <= epoch(end);
  if (DAY.test(start) && DAY.test(end)) return start <= end;
  return undefined;
}

/** Milliseconds since 1970. A leap second, which `Date` cannot read, counts as the first of the next minute. */
function epoch(instant: string): number {
  const before = instant.replace(':60', ':59');
  return Date.parse(before) + (before === instant ? 0 : 1000);
}

function notNegative(value: unknown, name: string): boolean | undefined {
  if (!isObject(value)) return undefined;
  const amount = value[name];
  if (amount === undefined && value[`_${name}`] === undefined) return true;
  return typeof amount === 'number' ? amount >= 0 : undefined;
}

/** An offset needs a single event of the day other than the meals themselves. */
function offsetFits(value: unknown): boolean | undefined {
  if (!isObject(value)) return undefined;
  if (value['offset'] === undefined && value['_offset'] === undefined) return true;
  const { when } = value;
  if (when === undefined && value['_when'] === undefined) return false;
  if (!Array.isArray(when) || when.length !== 1) return undefined;
  return !['C', 'CM', 'CD', 'CV'].includes(String(when[0]));
}
