import { SaxesParser } from 'saxes';
import { describe, expect, it } from 'vitest';
import { defaultLimits } from '../../../src/clinical/default-limits.js';
import type { ClinicalLimits } from '../../../src/clinical/limits.js';
import { languages } from '../../../src/findings/languages.js';
import { dosePanelSvg } from '../../../src/report/pictures/dose.js';
import { readPicture } from '../../../src/report/pictures/svg.js';
import { fullStates, read } from '../../support/report/assess.js';
import { bareCase, fullCase, noneCase } from '../../support/report/cases.js';
import { render, renderWith, viewOf } from '../../support/report/reports.js';

const level = (value: string) => ({ value, source: 'invented policy 3' });
const limits: ClinicalLimits['radiation'] = {
  local: {},
  airKermaNotify: level('3'),
  airKermaSubstantial: level('5'),
  kermaAreaSubstantial: level('500'),
};
const caseWith = (radiation: string) => read(fullCase.replace(/^radiation: .*$/m, `radiation: ${radiation}`));
const panel = (radiation: string, language: (typeof languages)[number] = 'en-GB') =>
  dosePanelSvg(caseWith(radiation), limits, language);

function outline(svg: string) {
  const words: string[] = [];
  const tags: { name: string; attributes: Record<string, string> }[] = [];
  let last = '';
  const parser = new SaxesParser();
  parser.on('opentag', tag => {
    last = tag.name;
    tags.push({ name: tag.name, attributes: { ...tag.attributes } as Record<string, string> });
  });
  parser.on('text', text => {
    if (last === 'text' && text.trim() !== '') words.push(text);
  });
  parser.write(svg).close();
  return { words, tags };
}

describe('dose panel', () => {
  it.each([
    ['{ airKerma: 2.99 Gy }', 'under the levels'],
    ['{ airKerma: 3 Gy }', 'notification level reached'],
    ['{ airKerma: 4999 mGy }', 'notification level reached'],
    ['{ airKerma: 5.0 Gy }', 'substantial level reached'],
    ['{ airKerma: "> 6 Gy" }', 'substantial level reached'],
    ['{ airKerma: "< 2 Gy" }', 'under the levels'],
    ['{ airKerma: "< 4 Gy" }', 'open: only a bound is recorded'],
    ['{ airKerma: "> 4 Gy" }', 'open: only a bound is recorded'],
    ['{ kermaAreaProduct: 60000 µGy·m2 }', 'substantial level reached'],
    ['{ fluoroscopyTime: 90 min }', 'no level set'],
  ])('%s: %s', (radiation, state) => {
    expect(outline(panel(radiation)).words).toContain(state);
  });
  it('shows the figure as it was recorded, the level in its unit, and whose level it is', () => {
    const { words } = outline(panel('{ airKerma: 212.0 mGy }'));
    expect(words).toEqual(expect.arrayContaining(['212.0 mGy', '3 Gy', '5 Gy', 'Levels: invented policy 3']));
  });
  it('leaves the figures of CT out: they have no level of the skin', () => {
    const ct = 'doseLengthProduct: 386 mGy·cm, ctDoseIndex: 8.4 mGy';
    expect(panel(`{ ${ct} }`)).toBe('');
    expect(panel(`{ airKerma: 2.5 Gy, ${ct} }`)).toBe(panel('{ airKerma: 2.5 Gy }'));
  });
  it('draws lengths in proportion to the levels', () => {
    const rects = outline(panel('{ airKerma: 2.5 Gy }')).tags.filter(tag => tag.name === 'rect');
    const [, track, bar] = rects.map(tag => Number(tag.attributes['width']));
    // 5 Gy lies at 1/1.08 of the track; 2.5 Gy at half of that.
    expect(bar).toBeCloseTo((track ?? 0) / 1.08 / 2, 0);
  });
  it.each(languages)('is a safe picture in greys in %s', language => {
    const svg = dosePanelSvg(read(fullCase), defaultLimits.radiation, language);
    expect(readPicture(svg).svg).toBe(svg);
    const colours = svg.match(/#[0-9a-f]{6}/g) ?? [];
    expect(colours.filter(colour => !/^#(..)\1\1$/.test(colour))).toEqual([]);
    expect(svg).not.toContain('{');
  });
  it('writes numbers in the form of the language', () => {
    expect(outline(panel('{ airKerma: 2.5 Gy }', 'de')).words).toContain('2,5 Gy');
  });
  it.each([
    ['nothing was recorded', bareCase],
    ['no radiation was used', noneCase],
  ])('is left out where %s', (_, text) => {
    expect(dosePanelSvg(read(text), defaultLimits.radiation, 'en-GB')).toBe('');
  });
  it('stands in the page after the dose, and in no other format', () => {
    const view = viewOf(fullCase, fullStates);
    const doseSvg = panel('{ airKerma: 4 Gy }');
    const page = renderWith(view, { audience: 'record', format: 'html', doseSvg });
    expect(page.indexOf('aria-labelledby="dose-title')).toBeGreaterThan(page.indexOf('section of-dose'));
    expect(page.indexOf('aria-labelledby="dose-title')).toBeLessThan(page.indexOf('section of-worked'));
    for (const format of ['text', 'xhtml'] as const)
      expect(renderWith(view, { audience: 'record', format, doseSvg })).toBe(render(view, 'record', format));
  });
});
