import { describe, expect, it } from 'vitest';
import { assess } from '../../src/clinical/assess.js';
import { assessComplications } from '../../src/clinical/outcome/adverse-events.js';
import { finding, messageOf } from '../../src/findings/finding.js';
import { textsOf } from '../../src/findings/languages.js';
import { clinicalWording } from '../../src/findings/wording/clinical.js';
import { missingWording } from '../../src/findings/wording/missing.js';
import { sizeWording } from '../../src/findings/wording/sizes.js';
import { tallyWording } from '../../src/findings/wording/tally.js';
import { buildView } from '../../src/report/view/view.js';
import { exampleText } from '../support/examples.js';
import { read } from '../support/report/assess.js';

const english = Object.entries({
  ...clinicalWording,
  ...sizeWording,
  ...tallyWording,
  ...missingWording,
}).filter(([, { severity }]) => severity === 'warning');
const places = (text: string) =>
  [...text.matchAll(/\{(\w+)(?::\w+)?\}/g)].map(match => match[1] ?? '').sort();

describe.each(['de', 'es', 'fr'] as const)('warnings that a record can accept, in %s', language => {
  it('are more than a few', () => {
    expect(english.length).toBeGreaterThan(50);
  });
  it.each(english)('%s says every fact of its finding', (code, { message }) => {
    const own = textsOf(language)[`finding.${code}`] ?? '';
    expect(own.trim()).not.toBe('');
    expect([...new Set(places(own))]).toEqual([...new Set(places(message))]);
    // A text of places alone says what fills them.
    if (/\p{L}/u.test(message.replace(/\{\w+\}/g, ''))) expect(own).not.toBe(message);
  });
  it.each([
    [
      'coaxial-exchange-short-wire.yaml',
      'size.wire-too-short',
      /Führungsdraht 0,018 in|gu(?:ía|ide) de 0,018 in/,
    ],
    ['fractured-wire-tip.yaml', 'tally.retained', /(?:Spitze von|punta de|extrémité de) fine1/],
  ])('prints what %s accepts', (file, code, said) => {
    const record = read(exampleText(file));
    const assessment = assess(record);
    const found = assessment.findings.filter(f => f.code === code && f.acknowledged);
    const paper = JSON.stringify(buildView(record, assessment, { language }).section.warnings);
    expect(found.length).toBeGreaterThan(0);
    expect(paper).toMatch(said);
    expect(paper).toContain(code);
    for (const one of found) expect(paper).not.toContain(messageOf(one));
  });
  it('says what no report prints as well', () => {
    const other = finding('delivery.gone', '', { destination: 'Test', status: '410' });
    if (language !== 'fr') expect(messageOf(other, language)).not.toBe(messageOf(other));
    expect(messageOf(other, language)).toContain('Test');
  });
  it.each(['Perforation of duodenum', 'creatinine', 'high', 'drop of 2.5'])(
    "leaves a person's own words alone: %s",
    what => {
      const text = exampleText('liver-biopsy.yaml');
      const own = read(
        text.replace('complications: none', `complications: [{ what: '${what}', at: '10:20' }]`),
      );
      const found = assessComplications(own).findings.find(f => f.code === 'clinical.grade-missing');
      expect(found && messageOf(found, language)).toContain(what);
    },
  );
});
