import readability from 'text-readability';
import { describe, expect, it } from 'vitest';
import { textsOf } from '../../src/findings/languages.js';
import type { ReportView } from '../../src/report/view/model.js';
import { easeInFrench, perspicuity, schoolYear } from '../support/languages/reading-ease.js';
import { allViews, render } from '../support/report/reports.js';

/**
 * Flesch-Kincaid grade (US school year) by the npm library text-readability. A grade is reached at the age of
 * grade + 5, so the age of twelve is grade 7.
 */
const AGE_TWELVE = 7;
const age = (grade: number) => grade + 5;

/** Casetally's own sentences for the patient: what people wrote (title, names, advice) is theirs. */
function ownSentences(
  { patient }: ReportView,
  help = 'Get help right away if you have one of these',
): string {
  const lines = [
    ...patient.notices,
    ...patient.done.slice(1).filter(line => !line.includes('Dr ')),
    ...patient.inside.flatMap(item => item.lines),
    patient.insideNone,
    ...patient.next,
    ...patient.know,
    ...patient.caution,
    `${help}: ${patient.help.join('; ')}.`,
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

  // The first formula gives school years, so that seven is the age of twelve; of the other two more is easier.
  describe.each([
    ['de', (text: string) => -schoolYear(text), -7, 'Holen Sie sofort Hilfe'],
    ['es', perspicuity, 65, 'Pida ayuda enseguida'],
    ['fr', easeInFrench, 70, 'Demandez de l’aide tout de suite'],
  ] as const)('in %s, by a formula made for the language', (language, ease, least, help) => {
    const samples = {
      de: [
        'Der Schlauch bleibt im Bauch. Er darf nicht nass werden.',
        'Die perkutane transhepatische Cholangiografie zeigte eine zirkumferenzielle, malignitätsverdächtige Gallengangsobstruktion mit unverzüglicher Dekompressionsnotwendigkeit.',
      ],
      es: [
        'El tubo se queda en su sitio. No lo moje.',
        'La colangiografía transhepática percutánea demostró una obstrucción circunferencial de características neoplásicas con indicación inmediata de descompresión endobiliar.',
      ],
      fr: [
        'Le tube reste en place. Il ne doit pas être mouillé.',
        'La cholangiographie transhépatique percutanée objectivait une obstruction circonférentielle évocatrice de malignité nécessitant une décompression endobiliaire immédiate.',
      ],
    }[language];

    it('tells plain from learned', () => {
      expect(ease(samples[0] ?? '')).toBeGreaterThan(least);
      expect(ease(samples[1] ?? '')).toBeLessThan(least);
    });

    it('is easy enough for about twelve', () => {
      for (const [name, view] of allViews(language))
        expect(ease(ownSentences(view, help)), name).toBeGreaterThan(least);
    });
  });

  it('the words have no abbreviations: no capitals in a row, no letters with full stops', () => {
    const words = Object.entries(textsOf('en-GB')).filter(([key]) => key.startsWith('patient'));
    expect(words.length).toBeGreaterThan(70);
    for (const [key, text] of words)
      expect(text, key).not.toMatch(/[A-Z]{2,}|\b[a-z]\.[a-z]\.|\be\.g|\betc\b/);
  });
});
