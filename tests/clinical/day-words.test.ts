import { describe, expect, it } from 'vitest';
import { daysTold } from '../../src/clinical/day-words.js';

// 2026-05-19 is a Tuesday. Days are counted by hand.
describe('days in words', () => {
  it.each([
    ['again on 2026-05-26', 7, 7],
    ['from 20 May', 1, 1],
    ['May 21st', 2, 2],
    ['21.05.2026', 2, 2],
    ['tomorrow morning', 1, 1],
    ['day after tomorrow', 2, 2],
    ['tonight', 0, 0],
    ['in one week', 7, 7],
    ['after 48 hours', 2, 2],
    ['three days later', 3, 3],
    ['on Friday', 3, 3],
    ['on Tuesday', 7, 7],
  ])('%s', (text, from, to) => {
    expect(daysTold(text, '2026-05-19')).toEqual({ from, to });
  });

  it('says nothing where no day is told, or none that there is', () => {
    expect(daysTold('when the urine is clear', '2026-05-19')).toBeUndefined();
    expect(daysTold('on 2026-02-31', '2026-05-19')).toBeUndefined();
  });
});
