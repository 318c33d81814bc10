import { describe, expect, it } from 'vitest';
import { SKIN_REVIEW } from '../../src/clinical/aftercare/aftercare.js';
import { assess } from '../../src/clinical/assess.js';
import { languages, textsOf } from '../../src/findings/languages.js';
import { buildView } from '../../src/report/view/view.js';
import { read } from '../support/report/assess.js';
import { bareCase } from '../support/report/cases.js';

const record = read(`${bareCase}radiation: { airKerma: 12 Gy }\n`);

describe.each(languages)(
  'the look at the skin that is proposed after a substantial dose, in %s',
  language => {
    it('is said in the words of the language', () => {
      const view = JSON.stringify(buildView(record, assess(record), { language }).section.aftercare);
      const words = textsOf(language);
      expect(view).toContain(words['due.skinReview']);
      expect(view).toContain(words['due.skinReviewWhen']);
      expect(view.includes(SKIN_REVIEW.what)).toBe(language.startsWith('en'));
      expect(view.includes(SKIN_REVIEW.when ?? '')).toBe(language.startsWith('en'));
    });
  },
);
