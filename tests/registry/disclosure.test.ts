import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { COARSEST, coarser, groupOf, groupsOf, stepOf } from '../../src/registry/disclosure/coarser.js';
import { elementsOf } from './made.js';

const alike = { elements: ['date', 'ageGroup', 'sex'] as const, least: 3, otherwise: 'withhold' as const };
const rule = { ...alike, elements: [...alike.elements] };

describe('entries made less precise', () => {
  const full = elementsOf('drain', {
    ...{ ageGroup: '45-49', sex: 'male', placed: '2024-03-01', ended: '2024-05-12' },
    ...{ dwellDays: 72, nextReview: '2024-06-01', lot: 'L1', expires: '2026-01-31' },
  });

  it.each([
    [1, { date: '2024-05', placed: '2024-03', ended: '2024-05', nextReview: '2024-06', ageGroup: '45-49' }],
    [2, { date: '2024', placed: '2024', ended: '2024', nextReview: '2024', ageGroup: '45-49' }],
    [3, { date: '2024', ageGroup: '40-49' }],
  ])('step %i: the date before the age', (step, wanted) => {
    expect(coarser(full, step)).toMatchObject({ ...wanted, lot: 'L1', expires: '2026-01-31', sex: 'male' });
    expect(coarser(full, step)).not.toHaveProperty('dwellDays');
  });

  it('step 4: no age; step 0: as agreed', () => {
    expect(coarser(full, COARSEST)).not.toHaveProperty('ageGroup');
    expect(coarser(full, 0)).toBe(full);
  });

  it('keeps the group of everybody over 89, and ages in years', () => {
    expect(coarser({ ...full, ageGroup: '90+' }, 3).ageGroup).toBe('90+');
    expect(coarser({ ...full, ageGroup: '87' }, 3).ageGroup).toBe('80-89');
  });

  it('never says more at a later step', () => {
    for (let step = 1; step <= COARSEST; step += 1)
      expect(coarser(coarser(full, step - 1), step)).toEqual(coarser(full, step));
  });
});

describe('how coarse a case is to be', () => {
  const day = fc.constantFrom('2024-05-01', '2024-05-02', '2024-06-01', '2023-01-01');
  const people = fc.array(
    fc.record({
      date: day,
      ageGroup: fc.constantFrom('45-49', '40-44', '70-74'),
      sex: fc.constantFrom('male' as const, 'female' as const),
    }),
    { minLength: 1, maxLength: 25 },
  );

  it('leaves nobody in a group smaller than agreed, unless even the coarsest is', () => {
    fc.assert(
      fc.property(people, all => {
        const entries = all.map(one => elementsOf('drain', one));
        const counts = new Map<string, number>();
        for (const one of entries)
          for (const group of groupsOf([one], rule)) counts.set(group, (counts.get(group) ?? 0) + 1);
        for (const one of entries) {
          const step = stepOf([one], rule, counts);
          // Counted once more by hand: those that are the same at that step.
          const same = (at: number) =>
            entries.filter(other => groupOf(other, at, rule) === groupOf(one, at, rule)).length;
          if (step === undefined) expect(same(COARSEST)).toBeLessThan(rule.least);
          else {
            expect(same(step)).toBeGreaterThanOrEqual(rule.least);
            // And no less precise than needed.
            for (let finer = 0; finer < step; finer += 1) expect(same(finer)).toBeLessThan(rule.least);
          }
        }
      }),
    );
  });

  it('is that of the entry which needs it most, for all entries of the case', () => {
    const entries = [elementsOf('a', { sex: 'male' }), elementsOf('b', { sex: 'female' })];
    const counts = new Map(groupsOf([elementsOf('a', { sex: 'male' })], rule).map(group => [group, 9]));
    expect(stepOf([elementsOf('a', { sex: 'male' })], rule, counts)).toBe(0);
    expect(stepOf(entries, rule, counts)).toBeUndefined();
  });
});
