import { describe, expect, it } from 'vitest';
import { assess } from '../../src/clinical/assess.js';
import { type Language, languages, textsOf } from '../../src/findings/languages.js';
import type { Param } from '../../src/findings/message.js';
import { say } from '../../src/findings/say.js';
import { ends } from '../../src/findings/words/en/ends.js';
import { eventVerbs } from '../../src/record/schema/devices.js';
import { buildView } from '../../src/report/view/view.js';
import { exampleFiles, exampleText } from '../support/examples.js';
import { read } from '../support/report/assess.js';

const keys = Object.keys(ends);
const wordsOf = (language: Language) => (key: string) => textsOf(language)[key] ?? '';
const english = wordsOf('en-GB');
const places = (text: string) =>
  [...text.matchAll(/\{(\w+)(?::\w+)?\}/g)].map(match => match[1] ?? '').sort();
const isAlert = (state: string) => /missing|unintended|unaccounted/.test(state);

/** Keys a reason is made of. */
function keysOf(part: Param): string[] {
  if (typeof part === 'string' || !('key' in part)) return [];
  return [part.key, ...Object.values(part.params).flatMap(keysOf)];
}

describe.each(languages)('reasons of end states in %s', language => {
  const words = wordsOf(language);
  it('has every verb of the record', () => {
    expect(eventVerbs.filter(verb => !keys.includes(`done.${verb}`))).toEqual([]);
  });
  it('has words for every key, with the same places to fill', () => {
    for (const key of keys) {
      expect(words(key).trim(), key).not.toBe('');
      expect(places(words(key)), key).toEqual(places(english(key)));
    }
  });
  it('says none of them in English, unless it is English', () => {
    const same = keys.filter(key => words(key) === english(key));
    expect(same).toEqual(language.startsWith('en') ? keys : []);
  });
});

const cases = exampleFiles.map(file => [file, read(exampleText(file))] as const);

describe('reasons on paper', () => {
  const shown = cases.flatMap(([file, record]) => {
    const assessment = assess(record);
    const entries = assessment.tally.entries.filter(entry => isAlert(entry.state) || !entry.event);
    return entries.map(entry => ({ file, record, assessment, entry }));
  });
  it('come up in the examples', () => {
    expect(shown.length).toBeGreaterThan(4);
  });
  it.each(['de', 'es', 'fr'] as const)('are said in %s and not in English', language => {
    const own = wordsOf(language);
    for (const { file, record, assessment, entry } of shown) {
      const devices = JSON.stringify(buildView(record, assessment, { language }).section.devices);
      const because = say(entry.why);
      expect(devices, `${file}: ${because}`).not.toContain(JSON.stringify(because).slice(1, -1));
      const words = keysOf(entry.why).map(
        key =>
          own(key)
            .split(/\{\w+(?::\w+)?\}/)[0]
            ?.trim() ?? '',
      );
      expect(
        words.filter(word => !devices.includes(word)),
        `${file}: ${because}`,
      ).toEqual([]);
    }
  });
});
