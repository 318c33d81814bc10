import { describe, expect, it } from 'vitest';
import { languageData, languageOf, languages, textsOf } from '../../src/findings/languages.js';
import { namer } from '../../src/findings/names.js';
import { lexicon } from '../../src/findings/say.js';
import { partial } from '../../src/findings/words/language.js';
import { analytes } from '../../src/trade/analytes.js';
import { caseKinds } from '../../src/trade/cases/table.js';
import { deviceKinds } from '../../src/trade/devices/table.js';
import { allergens } from '../../src/trade/drugs/allergens.js';
import { drugTable } from '../../src/trade/drugs/table.js';

const foreign = languages.filter(language => !language.startsWith('en'));

describe.each(foreign)('names in %s', language => {
  const { names, forms, complete } = languageData(language);
  const missing = (rows: readonly { readonly name: string }[], ...lists: (keyof typeof names)[]) =>
    rows.map(row => row.name).filter(name => !lists.some(list => Object.hasOwn(names[list] ?? {}, name)));
  it('are there for every row of the trade tables', () => {
    expect(complete).toBe(true);
    expect(missing(deviceKinds, 'devices')).toEqual([]);
    expect(missing(caseKinds, 'cases')).toEqual([]);
    expect(missing([...drugTable.rows, ...allergens], 'drugs', 'values')).toEqual([]);
    expect(missing(analytes, 'values')).toEqual([]);
  });
  it('are of rows that there are, so that no name is lost when a row is renamed', () => {
    const rows = new Set(deviceKinds.map(row => row.name));
    expect(Object.keys(names.devices ?? {}).filter(name => !rows.has(name))).toEqual([]);
    const kinds = new Set(caseKinds.map(row => row.name));
    expect(Object.keys(names.cases ?? {}).filter(name => !kinds.has(name))).toEqual([]);
  });
  it('of devices and parts have their gender', () => {
    const bare = [...Object.entries(names.devices ?? {}), ...Object.entries(names.parts ?? {})];
    expect(bare.filter(([, name]) => !/^[mfnp] \S/.test(name)).map(([row]) => row)).toEqual([]);
  });
  it('take every form without a trace of how it is made', () => {
    const { bare, inForm } = namer(languageData(language));
    for (const kind of deviceKinds)
      for (const form of Object.keys(forms))
        expect(inForm(bare('devices', kind.name) ?? '', form), `${kind.name} ${form}`).not.toMatch(
          /~|^[mfnp] | {2}/,
        );
  });
});

const formOf = (language: (typeof languages)[number], text: string, form: string) =>
  namer(languageData(language)).inForm(text, form);

describe('forms', () => {
  it.each([
    ['de', 'Führungsdraht 0,018 in (Nr. 1 von 2)', 'acc', 'den Führungsdraht 0,018 in (Nr. 1 von 2)'],
    ['de', 'steifer hydrophiler Führungsdraht', 'acc', 'den steifen hydrophilen Führungsdraht'],
    ['de', 'getunnelte Drainage 15 Fr', 'dat', 'der getunnelten Drainage 15 Fr'],
    ['de', 'venöses Portsystem', 'gen', 'vom venösen Portsystem'],
    ['de', 'radioaktive Mikrosphären', 'dat', 'den radioaktiven Mikrosphären'],
    ['es', 'guía de 0,018 in', 'def', 'la guía de 0,018 in'],
    ['es', 'catéter balón', 'de', 'del catéter balón'],
    ['fr', 'aiguille de ponction de 21 G', 'def', 'l’aiguille de ponction de 21 G'],
    ['fr', 'guide de 0,035 in', 'de', 'du guide de 0,035 in'],
  ] as const)('%s: %s, %s', (language, text, form, said) => {
    expect(formOf(language, text, form)).toBe(said);
  });
  it.each([
    ['de', 'wobbling thing 3 Fr', 'acc', 'wobbling thing 3 Fr'],
    ['de', 'wobbling thing 3 Fr', 'gen', 'von wobbling thing 3 Fr'],
    ['es', 'wobbling thing', 'de', 'de wobbling thing'],
    ['fr', 'odd thing', 'de', 'd’odd thing'],
    ['de', 'Dr. Stent', 'acc', 'Dr. Stent'],
    ['de', 'Stentor', 'acc', 'Stentor'],
  ] as const)('%s: of unknown gender, %s', (language, text, form, said) => {
    expect(formOf(language, text, form)).toBe(said);
  });
  it('each of several takes the form', () => {
    const what = { and: ['Führungsdraht', 'Einführschleuse'] };
    expect(lexicon('de').say('event.with', { what })).toBe(
      'zusammen mit dem Führungsdraht und der Einführschleuse',
    );
    expect(lexicon('en-GB').say('event.with', { what })).toBe(
      'together with Führungsdraht and Einführschleuse',
    );
  });
});

describe('words of the record', () => {
  const said = (
    language: (typeof languages)[number],
    param: Parameters<ReturnType<typeof lexicon>['text']>[0],
  ) => lexicon(language).text(param);
  it('keep what another name says more than its row', () => {
    const param = { named: 'values', text: 'ionised calcium', row: 'calcium', other: true } as const;
    expect(said('de', param)).toBe('Kalzium (ionised calcium)');
    expect(said('en-GB', param)).toBe('ionised calcium');
  });
  it('put the side where the language has it', () => {
    const param = { named: 'places', text: 'Left renal pelvis', row: 'renal pelvis', side: 'left' } as const;
    expect(said('de', param)).toBe('Nierenbecken, links');
    expect(said('fr', param)).toBe('Bassinet, gauche');
    expect(said('en-US', param)).toBe('Left renal pelvis');
  });
  it('put the size of a device where the language has it', () => {
    const param = { device: '8.5 Fr pigtail drain, 2.5 cm', kind: 'pigtail drain', row: 'pigtail drain' };
    expect(said('de', param)).toBe('Pigtail-Drainage 8,5 Fr, 2,5 cm');
    expect(said('es', param)).toBe('drenaje en cola de cerdo de 8,5 Fr, 2,5 cm');
    expect(said('en-GB', param)).toBe('8.5 Fr pigtail drain, 2.5 cm');
    expect(said('de', { device: '8.5 Fr gadget', kind: 'gadget' })).toBe('8,5 Fr gadget');
  });
});

describe('counting', () => {
  it.each([
    ['de', '0 Tage', '1 Tag', '2 Tage', '21 Tage'],
    ['es', '0 días', '1 día', '2 días', '21 días'],
    ['fr', '0 jour', '1 jour', '2 jours', '21 jours'],
  ] as const)('%s: 0, 1, 2 and 21', (language, ...forms) => {
    expect(['0', '1', '2', '21'].map(n => lexicon(language).plural('unit.d', n))).toEqual(forms);
  });
});

describe('tags', () => {
  it.each([
    ['de-CH', 'de'],
    ['es_MX', 'es'],
    ['fr-CA', 'fr'],
    ['EN-us', 'en-US'],
    ['en-NZ', 'en-GB'],
    ['xx', undefined],
    ['', undefined],
    ['d', undefined],
    ['__proto__', undefined],
  ] as const)('%s is read in %s', (tag, language) => {
    expect(languageOf(tag)).toBe(language);
  });
});

it('a language that is being written says in English what it lacks', () => {
  const begun = partial({ name: 'Nederlands', reviewed: 'no', names: {}, forms: {}, texts: { yes: 'Ja' } });
  expect(begun.complete).toBe(false);
  expect({ ...textsOf('en-GB'), ...begun.texts }['no']).toBe('No');
  expect({ ...textsOf('en-GB'), ...begun.texts }['yes']).toBe('Ja');
});
