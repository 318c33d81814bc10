import { expect, test } from 'vitest';
import type { Cell } from './compare.js';
import { agreement, decidedAgreement } from './compare.js';
import type { Explanation } from './explained.js';
import { decidedByStandard } from './explained.js';

const entry = (wrong: Explanation['wrong'], standard = 'a sentence of the standard'): Explanation => ({
  operator: '*',
  side: 'missed',
  issue: '.',
  wrong,
  reason: 'a reason that is long enough to be one',
  standard,
  source: 'the page',
});
const byReference = entry('reference');
const remembered = entry('reference', 'a sentence of the standard (from memory)');

test('only what the reference gets wrong throughout is decided for ours', () => {
  const reasons = [
    [byReference],
    [byReference, remembered],
    [byReference, entry('ours, by choice')],
    [entry('neither')],
    [],
    undefined,
  ];
  expect(decidedByStandard(reasons)).toEqual({ decided: 2, remembered: 1 });
});

test('decided texts stay in the count, and the others lower it', () => {
  const cell: Cell = { both: 50, samePlace: 50, neither: 40, oursOnly: 6, oracleOnly: 4, silent: 3 };
  expect(agreement(cell)).toBeCloseTo(0.9);
  expect(decidedAgreement(cell, 7)).toBeCloseTo(0.97);
  expect(decidedAgreement(cell, 0)).toBe(agreement(cell));
});
