import type { Plan } from '../schema/plan.js';
import { matchesPattern, sameJson } from './equal.js';
import type { Place } from './place.js';
import type { Run } from './run.js';

/** Checks fixed values, patterns, lengths and ranges that the definitions at this place carry. */
export function checkValues(run: Run, value: unknown, plan: Plan, place: Place): void {
  for (const def of plan.values) {
    const { fixed, pattern, maxLength, minValue, maxValue } = def.element;
    if (fixed && isFor(fixed.type, plan) && !sameJson(value, fixed.value)) {
      const expected = shown(fixed.value);
      run.report('conformance.fixed', place, { expected, found: shown(value) }, { def, expected });
    }
    if (pattern && isFor(pattern.type, plan) && !matchesPattern(value, pattern.value)) {
      const expected = shown(pattern.value);
      run.report('conformance.pattern', place, { expected, found: shown(value) }, { def, expected });
    }
    if (maxLength !== undefined && typeof value === 'string' && [...value].length > maxLength) {
      const found = String([...value].length);
      run.report('conformance.length', place, { found, max: String(maxLength) }, { def });
    }
    if (minValue && isFor(minValue.type, plan) && below(value, minValue.value)) {
      const limit = `at least ${shown(minValue.value)}`;
      run.report('conformance.range', place, { value: shown(value), limit }, { def, expected: limit });
    }
    if (maxValue && isFor(maxValue.type, plan) && below(maxValue.value, value)) {
      const limit = `at most ${shown(maxValue.value)}`;
      run.report('conformance.range', place, { value: shown(value), limit }, { def, expected: limit });
    }
  }
}

/** A fixed value of a choice element binds only the values of its own type. */
function isFor(type: string, plan: Plan): boolean {
  return type.toLowerCase() === plan.type.toLowerCase() || plan.ancestry.includes(type);
}

/** Ordered comparison of numbers, and of dates and times as far as both are written alike. */
function below(a: unknown, b: unknown): boolean {
  if (typeof a === 'number' && typeof b === 'number') return a < b;
  if (typeof a === 'string' && typeof b === 'string') {
    const instants = [Date.parse(a), Date.parse(b)] as const;
    if (a.includes('T') && b.includes('T') && instants.every(Number.isFinite))
      return instants[0] < instants[1];
    const length = Math.min(a.length, b.length);
    return a.slice(0, length) < b.slice(0, length);
  }
  return false;
}

/** A value in short JSON for a message. */
export function shown(value: unknown): string {
  const text = JSON.stringify(value) ?? 'nothing';
  return text.length > 160 ? `${text.slice(0, 157)}...` : text;
}
