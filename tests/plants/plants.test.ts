import { describe, expect, it } from 'vitest';
import { parse } from 'yaml';
import { foundIn, isKnownCode, readBank, readExpected } from './bank.js';
import { changesData, edited, spelt } from './edit.js';
import { limits } from './limits.js';
import { rates, type Trial, tried } from './rates.js';

// Everything in this folder is common practice, no source: what people get wrong in cases of the whole field.
const bank = readBank();

describe('the bank of planted mistakes', () => {
  it('has cases of many fields, and a part kept apart that is large enough to tell something', () => {
    const count = (of: 'mistakes' | 'variants', apart: boolean) =>
      bank.filter(base => base.apart === apart).reduce((sum, base) => sum + base[of].length, 0);
    expect(bank.length).toBeGreaterThanOrEqual(25);
    expect(count('mistakes', false)).toBeGreaterThanOrEqual(400);
    expect(count('variants', false)).toBeGreaterThanOrEqual(100);
    // What is kept apart joins the open part once it was looked at, and is written anew.
    expect(count('mistakes', true)).toBeGreaterThanOrEqual(80);
    expect(count('variants', true)).toBeGreaterThanOrEqual(25);
  });

  it.each(bank)('$name: no error without an edit, and every edit changes the record', base => {
    expect(foundIn(base.text).filter(f => f.severity === 'error' || f.severity === 'fatal')).toEqual([]);
    const edits = [...base.mistakes, ...base.variants];
    const says = edits.map(edit => edit.say);
    expect(says.filter((say, i) => says.indexOf(say) !== i)).toEqual([]);
    const whole = parse(base.text);
    const plain = JSON.stringify(whole);
    for (const edit of edits)
      if (changesData(edit)) expect(JSON.stringify(edited(whole, edit)), edit.say).not.toBe(plain);
      else expect(spelt(base.text, edit), edit.say).not.toBe(base.text);
  });

  it('expects codes of the catalogue or of codes.yaml', () => {
    const codes = bank.flatMap(base => base.mistakes.flatMap(mistake => readExpected(mistake).codes));
    expect(codes.filter(code => !isKnownCode(code))).toEqual([]);
  });
});

describe('what the checks make of it', () => {
  const trials: Trial[] = [];

  it.each(bank)('$name is tried', base => {
    const all = tried(base);
    expect(all).toHaveLength(1 + base.mistakes.length + base.variants.length);
    // A harmless variant is still a whole record.
    expect(all.filter(({ whole }) => !whole)).toEqual([]);
    trials.push(...all);
  });

  it.each([
    ['open cases', false, limits.open],
    ['cases kept apart', true, limits.keptApart],
  ] as const)(
    '%s: enough mistakes caught, few false alarms',
    (_, apart, { caughtAtLeast, falseAlarmsUnder }) => {
      const { caught, falseAlarm } = rates(trials.filter(trial => trial.apart === apart));
      expect(caught).toBeGreaterThanOrEqual(caughtAtLeast);
      expect(falseAlarm).toBeLessThan(falseAlarmsUnder);
    },
  );
});
