import { describe, expect, it } from 'vitest';
import { decodeLabel } from '../../src/devices/labels/decode.js';
import { type Finding, messageOf, remedyOf } from '../../src/findings/finding.js';
import { textsOf } from '../../src/findings/languages.js';
import type { Param } from '../../src/findings/message.js';
import { isWordKey } from '../../src/findings/say.js';
import { parseCase } from '../../src/record/parse.js';
import { checked, read } from '../remedies/outcome.js';
import { knownBad, misspelt } from '../remedies/records.js';

/** Every plain text among what fills the places of a finding, and every message. */
function partsOf(param: Param): { texts: string[]; keys: string[] } {
  if (typeof param === 'string') return { texts: [param], keys: [] };
  const inner =
    'key' in param
      ? Object.values(param.params)
      : 'and' in param
        ? param.and
        : 'list' in param
          ? param.list
          : 'sentence' in param
            ? [param.sentence]
            : [];
  const parts = inner.map(partsOf);
  return {
    texts: parts.flatMap(({ texts }) => texts),
    keys: [...('key' in param ? [param.key] : []), ...parts.flatMap(({ keys }) => keys)],
  };
}

const ofFinding = ({ params, remedy }: Finding) =>
  [...Object.values(params), ...(remedy ? [remedy] : [])].map(partsOf);

const english = textsOf('en-GB');
/** Words that the answers are made of, so that one of them in a plain text was made by the code. */
const answers = Object.keys(english).filter(
  key =>
    isWordKey(key) &&
    /^(?:answer|mend|fault|reading|expected|found|char|scan|listed|picture|code)\./.test(key),
);
/** What is said of a text in any answer, without its places: `has no unit: write one of`. */
const phrases = answers
  .flatMap(key => (english[key] ?? '').split(/\{\w+\}|'/))
  .map(phrase => phrase.trim())
  .filter(phrase => /[a-z]{2,} [a-z]{2,}/i.test(phrase))
  // A record may say it too: `is: at most`.
  .filter(phrase => phrase !== 'at most');

const faulty = [
  'case:\n\tid: 1',
  "casetally: 1\ncase: {id: 'a}",
  'casetally: 1\n---\ncasetally: 1',
  'a: b: c',
  '- one',
  'just words',
  'casetallySite: 1',
  'resourceType: Patient',
  '"bad \\q escape": 1',
  'casetally: 1\ncase: { id: 1, title: drain, left side }',
].flatMap(text => parseCase(text).findings);

const labels = [
  '+a123bjc5d6e71g',
  '(01)09506000117842(10)AB',
  '(01)0950600011784X',
  '(01)09506000117843(17)261331(10)1234567890123456789012',
  '(10)AB',
  '=/X',
  '+/X',
  '+A123BJC5D6E7~',
  '',
].flatMap(text => decodeLabel(text, { today: '2026-11-25' }).findings);

const found: Finding[] = [
  ...faulty,
  ...labels,
  ...knownBad().flatMap(({ data }) => checked(data)),
  ...misspelt('ureteric-stent-tumour.yaml').flatMap(({ data }) => read(data)),
];

describe('answers that are made for one case', () => {
  it('are messages, and no English text', () => {
    const keys = new Set(found.flatMap(ofFinding).flatMap(({ keys: all }) => all));
    // Enough of them are met for this to say something.
    expect(answers.filter(key => keys.has(key as never)).length).toBeGreaterThan(50);
    const texts = new Set(found.flatMap(ofFinding).flatMap(({ texts: all }) => all));
    const made = [...texts].filter(text => phrases.some(phrase => text.includes(phrase)));
    expect(made).toEqual([]);
  });

  it.each(['de', 'es', 'fr'] as const)('are said in %s', language => {
    const left = found
      .flatMap(one => [
        [one.code, messageOf(one, language)],
        [one.code, remedyOf(one, language)],
      ])
      .filter(([, said]) => phrases.some(phrase => said?.includes(phrase)));
    expect(left).toEqual([]);
  });
});
