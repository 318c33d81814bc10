import { describe, expect, it } from 'vitest';
import { assess } from '../../src/clinical/assess.js';
import { type Reason, type ReasonPart, reasonText } from '../../src/devices/tally/reasons.js';
import { eventVerbs } from '../../src/record/schema/devices.js';
import { buildView } from '../../src/report/view/view.js';
import { languages } from '../../src/findings/languages.js';
import { reasonWordsOf } from '../../src/report/words/reasons.js';
import { exampleFiles, exampleText } from '../support/examples.js';
import { read } from './support/assess.js';

const english = reasonWordsOf('en-GB');
const keys = Object.keys(english) as (keyof typeof english)[];
const places = (text: string) => [...text.matchAll(/\{(\w+)\}/g)].map(match => match[1] ?? '').sort();
const isAlert = (state: string) => /missing|unintended|unaccounted/.test(state);

/** Keys a reason is made of, but for those whose words are places alone. */
function keysOf(part: ReasonPart): (keyof typeof english)[] {
  if (typeof part === 'string' || 'when' in part) return [];
  if ('verb' in part) return [`verb.${part.verb}`];
  return [part.key, ...Object.values(part.params).flatMap(keysOf)];
}

describe.each(languages)('reasons of end states in %s', language => {
  const words = reasonWordsOf(language);
  it('has every key, and every verb of the record', () => {
    expect(Object.keys(words).sort()).toEqual([...keys].sort());
    expect(eventVerbs.filter(verb => !words[`verb.${verb}`])).toEqual([]);
  });
  it('has words for every key, with the same places to fill', () => {
    for (const key of keys) {
      expect(words[key].trim(), key).not.toBe('');
      expect(places(words[key]), key).toEqual(places(english[key]));
    }
  });
  it('says none of them in English, unless it is English', () => {
    const same = keys.filter(key => words[key] === english[key]);
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
  it('are in the text of the tally what they are in English', () => {
    for (const [, record] of cases)
      for (const { because, why } of assess(record).tally.entries) expect(reasonText(why)).toBe(because);
  });
  it.each(['de', 'es'] as const)('are said in %s and not in English', language => {
    for (const { file, record, assessment, entry } of shown) {
      const devices = JSON.stringify(buildView(record, assessment, { language }).section.devices);
      const why: Reason = entry.why;
      expect(devices, `${file}: ${entry.because}`).not.toContain(JSON.stringify(entry.because).slice(1, -1));
      const words = keysOf(why).map(
        key =>
          reasonWordsOf(language)
            [key].split(/\{\w+\}/)[0]
            ?.trim() ?? '',
      );
      expect(
        words.filter(word => !devices.includes(word)),
        `${file}: ${entry.because}`,
      ).toEqual([]);
    }
  });
});
