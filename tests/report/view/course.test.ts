import { describe, expect, it } from 'vitest';
import { lexicon } from '../../../src/findings/say.js';
import { buildView } from '../../../src/report/view/view.js';
import { assessment, read } from '../../support/report/assess.js';
import { fullCase } from '../../support/report/cases.js';
import { examples } from '../pdf/support.js';

/* What was done, in sentences made from the events. Common practice, no source. */

const told = (text: string) => {
  const record = read(text);
  return buildView(record, assessment(record)).facts.course;
};
const { say } = lexicon('en-GB');

describe('what was done', () => {
  it.each(examples.map(one => [one.name, one] as const))('%s: in a few sentences', (_, one) => {
    for (const language of ['en-GB', 'de', 'es'] as const) {
      const { said, lines } = one.view(language).facts.course;
      expect(said).toBe(true);
      expect(lines).toHaveLength(1);
      const sentences = lines[0]?.split(/\.\s(?=\p{Lu}|\d)/u) ?? [];
      expect(sentences.length).toBeGreaterThanOrEqual(3);
      expect(sentences.length).toBeLessThanOrEqual(16);
    }
  });

  it.each(examples.map(one => [one.name, one] as const))('%s: says "whole" only of what is', (_, one) => {
    const [line = ''] = one.view().facts.course.lines;
    const says = [say('course.out'), say('course.outAll')].some(sentence => line.includes(sentence));
    if (one.name === 'fractured-wire-tip.yaml') expect(says).toBe(false);
    if (one.name === 'cut-locking-drain.yaml')
      expect(line).toMatch(/earlier case: .*; Removed in pieces, complete\./);
    expect(line.includes(say('course.outAll')) && one.view().inside.length > 0).toBe(false);
  });

  it('counts samples, not needles', () => {
    const biopsy = examples.find(({ name }) => name === 'liver-biopsy.yaml') ?? expect.fail('no biopsy');
    expect(biopsy.view().facts.course.lines[0]).toContain('(18 G biopsy needle; 3 samples)');
  });

  it('is not recorded where no event is', () => {
    const without = fullCase.replace(/^events:\n(?: {2}.*\n)+/m, '');
    expect(without).not.toBe(fullCase);
    expect(told(without).said).toBe(false);
  });
});
