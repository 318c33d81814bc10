import readability from 'text-readability';
import { describe, expect, it } from 'vitest';
import { textsOf } from '../../src/findings/languages.js';
import type { ReportView } from '../../src/report/view/model.js';
import { allViews, render } from '../support/report/reports.js';

/**
 * Flesch-Kincaid grade (US school year) by the npm library text-readability. A grade is reached at the age of
 * grade + 5, so the age of twelve is grade 7.
 */
const AGE_TWELVE = 7;
const age = (grade: number) => grade + 5;

/** Casetally's own sentences for the patient: what people wrote (title, names, advice) is theirs. */
function ownSentences({ patient }: ReportView): string {
  const lines = [
    ...patient.notices,
    ...patient.done.slice(1).filter(line => !line.includes('Dr ')),
    ...patient.inside.flatMap(item => item.lines),
    patient.insideNone,
    ...patient.next,
    ...patient.know,
    ...patient.caution,
    `Get help right away if you have one of these: ${patient.help.join('; ')}.`,
  ];
  return lines.filter(line => line !== '').join(' ');
}

describe('reading age of the patient report', () => {
  it('the library tells plain from learned', () => {
    expect(readability.fleschKincaidGrade('The cat sat on the mat. It was glad.')).toBeLessThan(2);
    expect(
      readability.fleschKincaidGrade(
        'Percutaneous transhepatic cholangiography demonstrated circumferential malignant obstruction necessitating decompression.',
      ),
    ).toBeGreaterThan(15);
  });

  it.each(allViews())('%s: about twelve or under', (name, view) => {
    const grade = readability.fleschKincaidGrade(ownSentences(view));
    console.info(`${name}: Flesch-Kincaid grade ${grade}, reading age ${age(grade)}`);
    expect(grade).toBeLessThanOrEqual(AGE_TWELVE);
    expect(grade).toBeGreaterThan(0);
  });

  it('the whole letter stays readable with what people wrote in it', () => {
    for (const [name, view] of allViews()) {
      const body = render(view, 'patient', 'text')
        .replace(/^[\s\S]*?\n\n[\s\S]*?\n\n/, '')
        .replace(/\n-+\n/g, '.\n');
      expect(readability.fleschKincaidGrade(body), name).toBeLessThanOrEqual(AGE_TWELVE + 2);
    }
  });

  it('the words have no abbreviations: no capitals in a row, no letters with full stops', () => {
    const words = Object.entries(textsOf('en-GB')).filter(([key]) => key.startsWith('patient'));
    expect(words.length).toBeGreaterThan(70);
    for (const [key, text] of words)
      expect(text, key).not.toMatch(/[A-Z]{2,}|\b[a-z]\.[a-z]\.|\be\.g|\betc\b/);
  });
});
