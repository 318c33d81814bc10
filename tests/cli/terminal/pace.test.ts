import { expect, it } from 'vitest';
import { paceText } from '../../../src/cli/terminal/pace.js';

it('says how far it is, how quick and how long it takes', () => {
  let now = 0;
  const text = paceText(() => now);
  const after = (seconds: number, at: number, cases: number, setAside = 0) => {
    now = seconds * 1000;
    return text({ at, total: 1000, cases, setAside });
  };
  expect(after(0, 0, 0)).toBe('0 cases, 0 %');
  expect(after(10, 100, 100)).toBe('100 cases, 10 %, 10.0 a second, 90 s left'.replace('90 s', '2 min'));
  expect(after(20, 200, 199, 1)).toBe('199 cases, 1 set aside, 20 %, 9.9 a second, 2 min left');
  expect(after(100, 999, 998)).toMatch(/^998 cases, 99 %, .* a second, 1 s left$/);
});

it('counts from the last minute: what an earlier run had done is passed quickly', () => {
  let now = 0;
  const text = paceText(() => now);
  const at = (seconds: number, done: number, cases: number) => {
    now = seconds * 1000;
    return text({ at: done, total: 100_000, cases, setAside: 0 });
  };
  at(0, 0, 0);
  at(5, 50_000, 0);
  for (let second = 10; second <= 600; second += 5) at(second, 50_000 + second, second);
  expect(at(601, 50_601, 601)).toBe('601 cases, 50 %, 1.0 a second, 13 h 44 min left');
});

it('is right where there is nothing', () => {
  expect(paceText(() => 0)({ at: 0, total: 0, cases: 0, setAside: 0 })).toBe('0 cases, 100 %');
});
