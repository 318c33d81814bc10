import { describe, expect, it } from 'vitest';
import type { Audience } from '../../../src/report/options.js';
import { documentOf } from '../../../src/report/view/document.js';
import { readLayout, sectionsFor } from '../../../src/report/view/site-layout.js';
import { fullStates } from '../../support/report/assess.js';
import { fullCase } from '../../support/report/cases.js';
import { viewOf } from '../../support/report/reports.js';

const view = viewOf(fullCase, fullStates);
const made = (audience: Audience, yaml: string, of = view) =>
  documentOf(of, { audience, layout: readLayout(`${audience}.yaml`, yaml).layout });
const keys = (audience: Audience, yaml: string) => made(audience, yaml).sections.map(({ key }) => key);
const house = (after: string) => `add: [{ key: house, title: House rules, after: ${after}, text: [One.] }]`;

describe("a site's layout", () => {
  it.each(['record', 'referrer', 'ward', 'patient'] as const)(
    'of %s names the sections there are',
    audience => {
      const usual = documentOf(view, { audience }).sections.map(({ key }) => key);
      expect(sectionsFor[audience].filter(key => usual.includes(key))).toEqual(usual);
      expect(usual.filter(key => !sectionsFor[audience].includes(key))).toEqual([]);
    },
  );
  it('orders, and leaves the others in their usual order', () => {
    expect(keys('ward', 'order: [inside, call]')).toEqual([
      'inside',
      'call',
      ...sectionsFor.ward.filter(key => key !== 'inside' && key !== 'call'),
    ]);
  });
  it.each([
    ['after one that stays', house('now'), ['done', 'whereabouts', 'now', 'house']],
    [
      'after one that moves',
      `order: [inside, call]\n${house('inside')}`,
      ['inside', 'house', 'call', 'done'],
    ],
    [
      'where the order says',
      `order: [house, call]\n${house('inside')}`,
      ['house', 'call', 'done', 'whereabouts'],
    ],
  ])('adds a section %s', (_, yaml, first) => {
    expect(keys('ward', yaml).slice(0, 4)).toEqual(first);
  });
  it('adds at the end what follows a section that this case does not have', () => {
    expect(keys('ward', `omit: [others]\n${house('others')}`).at(-1)).toBe('house');
  });
  it('refuses sections that follow each other, or one that is added later', () => {
    const add = (a: string, b: string) =>
      `add: [{ key: a, title: A, after: ${a}, text: [x] }, { key: b, title: B, after: ${b}, text: [x] }]`;
    for (const yaml of [add('b', 'a'), add('a', 'inside'), add('b', 'inside')])
      expect(() => readLayout('ward.yaml', yaml)).toThrow(/has to be added before it/);
    expect(keys('ward', add('inside', 'a'))).toContain('b');
  });
  it('names sections and begins them with text, by language', () => {
    const yaml =
      'titles: { you: { en: Tasks, de: Aufgaben } }\nlead: { you: [{ de: Zuerst. , en: First. }, { list: [a] }] }';
    const section = (language: 'en-US' | 'de' | 'es') =>
      made('ward', yaml, viewOf(fullCase, fullStates, language)).sections.find(({ key }) => key === 'you');
    expect(section('de')?.title).toBe('Aufgaben');
    expect(section('de')?.nodes.slice(0, 2)).toMatchObject([
      { lines: ['Zuerst.'] },
      { items: [{ lines: ['a'] }] },
    ]);
    expect(section('en-US')?.title).toBe('Tasks');
    expect(section('es')?.title).toBe('Tasks');
  });
  it('changes nothing when it is empty', () => {
    expect(made('patient', '')).toEqual(documentOf(view, { audience: 'patient' }));
  });
});
