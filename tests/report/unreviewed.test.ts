import { describe, expect, it } from 'vitest';
import { isReviewed, languages } from '../../src/findings/languages.js';
import { lexicon } from '../../src/findings/say.js';
import { audiences, formats } from '../../src/report/options.js';
import { whyNoReport } from '../../src/report/refusal.js';
import { siteSchema, unconfiguredSite } from '../../src/site/site.js';
import { read } from '../support/report/assess.js';
import { fullCase } from '../support/report/cases.js';
import { flat, render, viewOf } from '../support/report/reports.js';

const record = read(fullCase);
const unreviewed = languages.filter(language => !isReviewed(language));

describe('a language that nobody of the trade reviewed', () => {
  it('is every one but English', () => {
    expect(unreviewed).toEqual(['de', 'es', 'fr']);
  });
  it.each(unreviewed)('%s: no letter to the patient unless the site asks for it', language => {
    const why = whyNoReport(record, 'patient', 0, false, { language, unreviewed: false });
    expect(why).toMatch(/^There is no letter to the patient in \p{L}+ \(..\): no clinician has reviewed/u);
    expect(why).toContain('report.unreviewedLetters');
    expect(why).toContain('--unreviewed');
    expect(why?.split('\n')).toHaveLength(1);
    expect(whyNoReport(record, 'patient', 0, false, { language, unreviewed: true })).toBeUndefined();
    // An error stands in the way, whatever the site says.
    expect(whyNoReport(record, 'patient', 1, false, { language, unreviewed: true })).toMatch(/error/);
    for (const audience of audiences.filter(one => one !== 'patient'))
      expect(whyNoReport(record, audience, 0, false, { language, unreviewed: false })).toBeUndefined();
  });
  it.each(unreviewed)('%s: every page says so, in the language', language => {
    const { say } = lexicon(language);
    for (const audience of audiences)
      for (const format of formats) {
        const said = say(audience === 'patient' ? 'patientCaution.unreviewed' : 'caution.unreviewed');
        const page = flat(render(viewOf(fullCase, {}, language), audience, format)).replaceAll('&#x27;', "'");
        expect(page, `${audience} ${format}`).toContain(said);
      }
  });
  it('English has its letter, and no such line', () => {
    expect(whyNoReport(record, 'patient', 0, false)).toBeUndefined();
    expect(render(viewOf(fullCase), 'record', 'text')).not.toContain('has not been reviewed by a clinician');
  });
});

describe('the language of a site', () => {
  const site = (language: string) => siteSchema.safeParse({ ...unconfiguredSite, language });
  it.each([
    ['de-CH', 'de'],
    ['es-MX', 'es'],
    ['fr-CA', 'fr'],
    ['en', 'en-GB'],
  ])('%s is read in %s', (tag, language) => {
    expect(site(tag).data?.language).toBe(language);
  });
  it('is refused where there is none', () => {
    expect(site('xx').success).toBe(false);
    expect(site('').success).toBe(false);
  });
});
