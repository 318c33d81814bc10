import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { CaseFacts, DeviceFact } from '../../src/register/facts.js';
import { fold } from '../../src/register/fold.js';
import { caseOf, device, options } from './facts.js';

/** One case of a life: how many are placed, which of those inside come out or are exchanged, and whether it is withdrawn later. */
interface Step {
  readonly days: number;
  readonly place: number;
  /** Places among those inside, as fractions. */
  readonly remove: readonly number[];
  readonly withdrawn: boolean;
}

const step: fc.Arbitrary<Step> = fc.record({
  days: fc.integer({ min: 1, max: 400 }),
  place: fc.integer({ min: 0, max: 3 }),
  remove: fc.array(fc.double({ min: 0, max: 0.999, noNaN: true }), { maxLength: 2 }),
  withdrawn: fc.boolean(),
});

/** A device of the model: from when to when. */
interface Lived {
  readonly lot: string;
  readonly from: string;
  to?: string;
}

const dayAfter = (day: string, days: number): string =>
  new Date(Date.parse(`${day}T00:00:00Z`) + days * 86_400_000).toISOString().slice(0, 10);

/**
 * The cases of a life, and what the simplest model says is inside. Withdrawn cases do nothing in the model; what they
 * would have placed is never seen again.
 */
function live(steps: readonly Step[]): { cases: CaseFacts[]; lived: Lived[] } {
  const cases: CaseFacts[] = [];
  const lived: Lived[] = [];
  let day = '2020-01-01';
  for (const [n, { days, place, remove, withdrawn }] of steps.entries()) {
    day = dayAfter(day, days);
    const inside = lived.filter(({ to }) => to === undefined);
    const out = [...new Set(remove.map(part => inside[Math.floor(part * inside.length)]))].flatMap(
      one => one ?? [],
    );
    const facts: DeviceFact[] = out.map(({ lot }, i) =>
      device(`out${i}`, { di: '09506000117843', lot, carried: {}, out: 1 }),
    );
    for (let i = 0; i < place; i += 1)
      facts.push(device(`in${i}`, { di: '09506000117843', lot: `L${n}-${i}` }));
    const first = caseOf(`C${n}`, day, facts);
    cases.push(first);
    if (withdrawn) {
      cases.push({ ...first, version: 2, status: 'withdrawn', digest: `w${n}` });
      continue;
    }
    for (const one of out) one.to = day;
    for (let i = 0; i < place; i += 1) lived.push({ lot: `L${n}-${i}`, from: day });
  }
  return { cases, lived };
}

describe('random lives', () => {
  it('have inside what a simple model has, with its dates, in any order and taken in twice', () => {
    fc.assert(
      fc.property(
        fc.array(step, { maxLength: 12 }),
        fc.infiniteStream(fc.double({ noNaN: true })),
        (steps, keys) => {
          const { cases, lived } = live(steps);
          const shuffled = [...cases, ...cases]
            .map(facts => ({ facts, key: keys.next().value ?? 0 }))
            .sort((a, b) => a.key - b.key)
            .map(({ facts }) => facts);
          const { uses, unlinked, gaps } = fold(shuffled, [], options);
          expect(fold(cases, [], options)).toEqual({ uses, unlinked, gaps });
          expect(unlinked).toEqual([]);
          const told = uses
            .filter(({ state }) => state !== 'withdrawn')
            .map(({ lot, placed, ended }) => [lot, placed, ended]);
          expect(told.sort()).toEqual(lived.map(({ lot, from, to }) => [lot, from, to]).sort());
          for (const use of uses.filter(({ state }) => state === 'withdrawn')) expect(use.inside).toBe(0);
        },
      ),
      { numRuns: 300 },
    );
  });
});
