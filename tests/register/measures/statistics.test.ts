import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { medianOf } from '../../../src/register/measures/median.js';
import { proportionOf } from '../../../src/register/measures/proportion.js';
import { medianTime, type Observation, survival } from '../../../src/register/measures/survival.js';

interface Reference {
  /** Programs that gave these values, with their versions. */
  readonly source: string;
  readonly curves: readonly {
    readonly name: string;
    readonly observations: readonly (readonly [number, boolean])[];
    readonly steps: readonly (readonly [number, number, number, number])[];
    readonly median: number | null;
    readonly low: number | null;
    readonly high: number | null;
  }[];
  readonly proportions: readonly (readonly [number, number, number, number])[];
  readonly medians: readonly {
    readonly values: readonly number[];
    readonly median: number;
    readonly low: number | null;
    readonly high: number | null;
  }[];
}

const reference = JSON.parse(
  readFileSync(join(import.meta.dirname, '..', '..', 'support', 'statistics', 'reference.json'), 'utf8'),
) as Reference;
const of = (all: readonly (readonly [number, boolean])[]): Observation[] =>
  all.map(([days, ended]) => ({ days, ended }));

describe(`against ${reference.source}`, () => {
  it.each(reference.curves.map(one => [one.name, one] as const))('curve: %s', (_name, one) => {
    const steps = survival(of(one.observations));
    expect(steps.map(({ days }) => days)).toEqual(one.steps.map(([days]) => days));
    for (const [at, [, lasting, low, high]] of one.steps.entries()) {
      expect(steps[at]?.lasting).toBeCloseTo(lasting, 12);
      expect(steps[at]?.interval.low).toBeCloseTo(low, 10);
      // Greenwood's variance has no value where nothing lasts; lifelines writes 0 there, we leave the bound open.
      if (lasting === 0) expect(steps[at]?.interval.high).toBeUndefined();
      else expect(steps[at]?.interval.high).toBeCloseTo(high, 10);
    }
    const median = medianTime(steps);
    expect(median.days).toBe(one.median ?? undefined);
    expect(median.low).toBe(one.low ?? undefined);
    const lastsNoLonger = one.steps.find(([days]) => days === one.high)?.[1] === 0;
    expect(median.high).toBe(lastsNoLonger ? undefined : (one.high ?? undefined));
  });

  it.each(reference.proportions)('share: %i of %i', (count, n, low, high) => {
    const { interval } = proportionOf(count, n)!;
    expect(interval.low).toBeCloseTo(low, 12);
    expect(interval.high).toBeCloseTo(high, 12);
  });

  it.each(reference.medians.map(one => [one.values.length, one] as const))('median of %i', (_n, one) => {
    const median = medianOf(one.values)!;
    expect(median.value).toBeCloseTo(one.median, 10);
    expect(median.interval?.low).toBe(one.low ?? undefined);
    expect(median.interval?.high).toBe(one.high ?? undefined);
  });

  it('has cases of every kind', () => {
    expect(reference.curves.length + reference.proportions.length + reference.medians.length).toBe(31);
    expect(reference.curves.some(({ high }) => high === null)).toBe(true);
    expect(reference.curves.some(({ median }) => median === null)).toBe(true);
  });
});

describe('what is published', () => {
  // Remission of leukaemia under 6-mercaptopurine: Freireich and others, Blood 1963, as worked through in textbooks of
  // survival analysis; from memory.
  it('gives the curve of the textbook', () => {
    const ended = [6, 6, 6, 7, 10, 13, 16, 22, 23];
    const followed = [6, 9, 10, 11, 17, 19, 20, 25, 32, 32, 34, 35];
    const steps = survival([
      ...ended.map(days => ({ days, ended: true })),
      ...followed.map(days => ({ days, ended: false })),
    ]);
    expect(
      steps.map(({ days, atRisk, lasting }) => [days, atRisk, Math.round(lasting * 1000) / 1000]),
    ).toEqual([
      [6, 21, 0.857],
      [7, 17, 0.807],
      [10, 15, 0.753],
      [13, 12, 0.69],
      [16, 11, 0.627],
      [22, 7, 0.538],
      [23, 6, 0.448],
    ]);
    expect(medianTime(steps).days).toBe(23);
  });

  // Newcombe, Statistics in Medicine 1998, two of the examples for the score interval: 81 of 263 and 15 of 148; from memory.
  it('gives the score intervals of the paper', () => {
    const bounds = (count: number, n: number) => {
      const { low, high = 1 } = proportionOf(count, n)!.interval;
      return [low.toFixed(4), high.toFixed(4)];
    };
    expect(bounds(81, 263)).toEqual(['0.2553', '0.3662']);
    expect(bounds(15, 148)).toEqual(['0.0624', '0.1605']);
  });
});

describe('whatever is observed', () => {
  const observations = fc.array(fc.record({ days: fc.nat(400), ended: fc.boolean() }), { maxLength: 60 });

  it('a curve falls, stays between its bounds, and does not depend on the order', () => {
    fc.assert(
      fc.property(observations, all => {
        const steps = survival(all);
        expect(survival(all.toReversed())).toEqual(steps);
        let before = 1;
        for (const { lasting, interval } of steps) {
          expect(lasting).toBeLessThan(before);
          expect(interval.low).toBeLessThanOrEqual(lasting);
          expect(interval.high ?? 1).toBeGreaterThanOrEqual(lasting);
          before = lasting;
        }
      }),
    );
  });

  it('without anything that goes on, the curve is the share that lasts', () => {
    fc.assert(
      fc.property(fc.array(fc.nat(50), { minLength: 1, maxLength: 40 }), days => {
        const steps = survival(days.map(one => ({ days: one, ended: true })));
        for (const step of steps)
          expect(step.lasting).toBeCloseTo(days.filter(one => one > step.days).length / days.length, 9);
      }),
    );
  });

  it('a share of nothing is none', () => {
    expect(proportionOf(0, 0)).toBeUndefined();
    expect(medianOf([])).toBeUndefined();
    expect(survival([])).toEqual([]);
    expect(medianTime([])).toEqual({});
  });
});
