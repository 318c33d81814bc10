import { describe, expect, it } from 'vitest';
import { languages } from '../../../src/findings/languages.js';
import { lexicon } from '../../../src/findings/say.js';
import { sampled } from '../../support/sampled.js';
import { examples, lacking, pagesOf, pdfOf } from './support.js';

/** Pages that each reader has; of the full report those before its annex. */
const most = { record: 2, referrer: 1, ward: 2, patient: 2 } as const;
const others = languages.filter(language => !language.startsWith('en'));
const title = lacking === undefined ? 'read back with poppler' : `SKIPPED, ${lacking}`;

describe.skipIf(lacking !== undefined)(`pages of each report, ${title}`, () => {
  // The other languages, which run longer, take turns.
  const rows = examples.flatMap(one =>
    (['en-GB', ...others] as const).map(language => [one.name, language, one] as const),
  );
  it.each(sampled('pages of reports', rows, 8))('%s, %s', async (_name, language, one) => {
    const annex = lexicon(language).say('record.annex');
    const record = pagesOf(await pdfOf(one, 'record', { language }));
    const front = record.findIndex(page => page.split('\n').some(line => line.trim() === annex));
    const counts = {
      record: front,
      referrer: pagesOf(await pdfOf(one, 'referrer', { language })).length,
      ward: pagesOf(await pdfOf(one, 'ward', { language })).length,
      patient: pagesOf(await pdfOf(one, 'patient', { language })).length,
    };
    expect(front).toBeGreaterThan(0);
    for (const audience of ['record', 'referrer', 'ward', 'patient'] as const)
      expect([audience, counts[audience] <= most[audience]]).toEqual([audience, true]);
  });
});
