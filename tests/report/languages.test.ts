import { describe, expect, it } from 'vitest';
import { languages, textsOf } from '../../src/findings/languages.js';
import { isWordKey, lexicon } from '../../src/findings/say.js';
import { audiences, formats } from '../../src/report/options.js';
import { width } from '../../src/report/render/wrap.js';
import { fullStates } from '../support/report/assess.js';
import { bareCase, fullCase, noneCase, notDoneCase } from '../support/report/cases.js';
import { narrativeFaults } from '../support/report/narrative-rules.js';
import { allTimelines, flat, render, viewOf } from '../support/report/reports.js';

describe.each(languages)('reports in %s', language => {
  const views = [
    viewOf(fullCase, fullStates, language),
    viewOf(bareCase, {}, language),
    viewOf(noneCase, {}, language),
    viewOf(notDoneCase, {}, language),
  ];
  it.each(audiences)('render for %s in every format', audience => {
    for (const view of views)
      for (const format of formats) {
        const text = render(view, audience, format);
        if (format === 'xhtml') expect(narrativeFaults(text)).toEqual([]);
        if (format === 'html') expect(text).toContain(`<html lang="${language}">`);
        if (format === 'text') expect(Math.max(...text.split('\n').map(width))).toBeLessThanOrEqual(80);
      }
  });
  it('tell none, not recorded and not done apart', () => {
    const said = views.slice(1).map(view => view.facts.complications.lines.join(' '));
    expect(new Set(said).size).toBe(3);
  });
  it('keep every digit that was written', () => {
    const digits = (text: string) => flat(text).replace(/[^0-9]/g, '');
    const english = render(viewOf(fullCase, fullStates), 'record', 'text');
    const here = render(viewOf(fullCase, fullStates, language), 'record', 'text');
    const sorted = (text: string) => digits(text).split('').sort().join('');
    expect(sorted(here)).toBe(sorted(english));
  });
});

describe('forms of the languages', () => {
  const text = (language: (typeof languages)[number]) =>
    flat(render(viewOf(fullCase, fullStates, language), 'record', 'xhtml').replace(/<[^>]*>/g, ' '));
  it.each([
    [
      'en-GB',
      [
        'Thursday 14 March 2024',
        '15.5 minutes',
        '42.0 Gy·cm²',
        'Sedation or anaesthesia',
        'January 2024',
        '8.5 Fr drainage catheter',
      ],
    ],
    [
      'en-US',
      [
        'March 14, 2024',
        '15.5 minutes',
        '42.0 Gy·cm²',
        'Sedation or anesthesia',
        'January 2024',
        'Organization',
      ],
    ],
    [
      'de',
      [
        'Donnerstag, 14. März 2024',
        '15,5 Minuten',
        '42,0 Gy·cm²',
        'Sedierung oder Anästhesie',
        'Januar 2024',
        'Drainagekatheter 8,5 Fr, 35 cm',
        'über den Führungsdraht 0,035 in',
      ],
    ],
    [
      'fr',
      [
        'jeudi 14 mars 2024',
        '15,5 minutes',
        '42,0 Gy·cm²',
        'Sédation ou anesthésie',
        'janvier 2024',
        'cathéter de drainage de 8,5 Fr, 35 cm',
        'par l’aiguille de ponction de 21 G',
      ],
    ],
    [
      'es',
      [
        'jueves, 14 de marzo de 2024',
        '15,5 minutos',
        '42,0 Gy·cm²',
        'Sedación o anestesia',
        'enero de 2024',
        'catéter de drenaje de 8,5 Fr, 35 cm',
        'sobre la guía de 0,035 in',
        'a través de la aguja de punción de 21 G',
      ],
    ],
  ] as const)('%s', (language, forms) => {
    for (const form of forms) expect(text(language)).toContain(form);
  });
  it.each(['de', 'es', 'fr'] as const)('%s mixes no decimal points into its quantities', language => {
    expect(text(language)).not.toMatch(/\d\.\d+ (Fr|mm|cm|mL|kg|Gy|in)\b/);
  });
  it('counts in one and more than one', () => {
    expect(lexicon('de').plural('unit.wk', '1')).toBe('1 Woche');
    expect(lexicon('es').plural('unit.mo', '3')).toBe('3 meses');
    expect(lexicon('en-GB').plural('unit.h', '1')).toBe('1 hour');
    expect(lexicon('en-GB').plural('unit.h', '5.5')).toBe('5.5 hours');
  });
  it.each(['de', 'es', 'fr'] as const)('%s leaves no sentence in English', language => {
    const english = textsOf('en-GB');
    const here = textsOf(language);
    const same = Object.entries(english).filter(
      ([key, value]) => isWordKey(key) && here[key] === value && /[a-z]{3,} [a-z]{3,}/i.test(value),
    );
    expect(same).toEqual([]);
  });
  it('American English differs from British in spelling alone', () => {
    const [british, american] = [textsOf('en-GB'), textsOf('en-US')];
    expect(Object.keys(american)).toEqual(Object.keys(british));
    const report = Object.keys(american).filter(
      key => isWordKey(key) && !/^(?:input|why|analyte|calculation)\./.test(key),
    );
    expect(report.map(key => american[key]).join(' ')).not.toMatch(/anaesth|haem|organisation/i);
  });
});

describe.each(['de', 'es', 'fr'] as const)('picture of the timeline in %s', language => {
  const own = textsOf(language);
  it('has its own words, and none of the English ones', () => {
    const fixed = Object.entries(textsOf('en-GB'))
      .filter(([key]) => key.startsWith('timeline.'))
      .map(([, word]) => word)
      .filter(word => !word.includes('{') && word.length > 4);
    for (const [name, svg] of allTimelines(language)) {
      expect(svg, name).toContain(own['timeline.keyInside']);
      expect(svg, name).toContain(own['timeline.title']?.replace('{id}', '').trim());
      expect(
        fixed.filter(word => new RegExp(`>[^<]*\\b${word}\\b`).test(svg)),
        name,
      ).toEqual([]);
    }
  });
  it('leaves no place open and no gap', () => {
    for (const [, svg] of allTimelines(language)) expect(svg).not.toMatch(/>[^<]*(\{\w+\}| {2}| [,;])/);
  });
  it('says the same as in English, in as many places', () => {
    const shape = (svg: string) => svg.match(/<[a-z]+/g)?.filter(tag => tag !== '<text') ?? [];
    const english = allTimelines();
    for (const [index, [name, svg]] of allTimelines(language).entries())
      expect(shape(svg), name).toEqual(shape(english[index]?.[1] ?? ''));
  });
});
