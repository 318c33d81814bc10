import { describe, expect, it } from 'vitest';
import { assess } from '../../src/clinical/assess.js';
import type { Finding } from '../../src/findings/finding.js';
import { clinicalWording } from '../../src/findings/wording/clinical.js';
import { sizeWording } from '../../src/findings/wording/sizes.js';
import { tallyWording } from '../../src/findings/wording/tally.js';
import { buildView } from '../../src/report/view/view.js';
import { warningMessage, warningWordsOf } from '../../src/report/words/warnings.js';
import { exampleText } from '../support/examples.js';
import { read } from '../support/report/assess.js';

const english = Object.entries({ ...clinicalWording, ...sizeWording, ...tallyWording }).filter(
  ([, { severity }]) => severity === 'warning',
);
const places = (text: string) => [...text.matchAll(/\{(\w+)\}/g)].map(match => match[1] ?? '');
const decimal = (value: string) => value.replace('.', ',');

describe.each(['de', 'es'] as const)('warnings that a record can accept, in %s', language => {
  const messages: Readonly<Record<string, string>> = warningWordsOf(language)?.messages ?? {};
  it('has every one, and none more', () => {
    expect(english.length).toBeGreaterThan(50);
    expect(Object.keys(messages).sort()).toEqual(english.map(([code]) => code).sort());
  });
  it.each(english)('%s fills no place that its finding does not have', (code, { message }) => {
    const own = messages[code] ?? '';
    expect(own.trim()).not.toBe('');
    expect(places(own).filter(place => !places(message).includes(place))).toEqual([]);
    expect(own).not.toBe(message);
  });
  it.each([
    ['coaxial-exchange-short-wire.yaml', 'size.wire-too-short', /0,018 in guidewire/],
    ['fractured-wire-tip.yaml', 'tally.retained', /tip (?:von|de) fine1/],
  ])('prints what %s accepts', (file, code, said) => {
    const record = read(exampleText(file));
    const assessment = assess(record);
    const found = assessment.findings.filter(f => f.code === code && f.acknowledged);
    const paper = JSON.stringify(buildView(record, assessment, { language }).section.warnings);
    expect(found.length).toBeGreaterThan(0);
    expect(paper).toMatch(said);
    expect(paper).toContain(code);
    for (const { message } of found) expect(paper).not.toContain(message);
  });
  it('keeps the English message of what is no such warning', () => {
    const other: Finding = {
      severity: 'information',
      code: 'acknowledged.nothing',
      path: '',
      message: 'As it is.',
      remedy: '',
      basis: '',
      params: {},
    };
    expect(warningMessage(language, other, decimal)).toBe('As it is.');
  });
});

it('leaves English as the finding has it', () => {
  const record = read(exampleText('fractured-wire-tip.yaml'));
  for (const found of assess(record).findings)
    expect(warningMessage('en-GB', found, decimal)).toBe(found.message);
});
