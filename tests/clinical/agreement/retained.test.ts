import { describe, expect, it } from 'vitest';
import { checkCase } from '../../../src/pipeline/check.js';
import { unconfiguredSite } from '../../../src/site/site.js';
import { exampleText } from '../../support/examples.js';

/* What stays against intention is an adverse event, whatever came of it. Trade knowledge: common practice, no source. */

const told = (text: string) => {
  const { record, findings } = checkCase(text, unconfiguredSite);
  if (!record) throw new Error('the record is not whole');
  expect(findings.map(({ code }) => code)).toContain('tally.retained');
  return findings.filter(({ code }) => code === 'clinical.retained-without-complication').length;
};
const tip = exampleText('fractured-wire-tip.yaml');
const without = tip.replace(/^complications:\n(?:[ -].*\n)+/m, 'complications: none\n');

describe('something that stays against intention', () => {
  it('with no complication is an error, and with one is not', () => {
    expect([told(without), told(tip)]).toEqual([1, 0]);
  });

  it('is none where it came from an earlier case', () => {
    const carried = exampleText('nephrostomy-exchange-transplant.yaml')
      .replace(/^devices:\n/m, 'devices:\n  stump: { kind: guidewire, carried: { date: 2019 } }\n')
      .replace(/^left:\n/m, 'left:\n  - { device: stump, purpose: unintended, site: Kidney }\n');
    expect(told(carried)).toBe(0);
  });

  it('is none in somebody who died, in whom it is left for a coroner', () => {
    const died = without.replace(/^outcome:\n/m, 'outcome:\n  died: "18:30"\n');
    expect(died).not.toBe(without);
    expect(told(died)).toBe(0);
  });
});
