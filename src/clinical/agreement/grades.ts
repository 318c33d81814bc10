import { type Finding, finding } from '../../findings/finding.js';
import { remembered } from '../../record/remembered.js';
import type { CaseRecord } from '../../record/schema/record.js';
import { conditionsTold, type Told, toldAfter, toldBefore } from '../texts.js';

const roman: Readonly<Record<string, string>> = { i: '1', ii: '2', iii: '3', iv: '4', v: '5', vi: '6' };

/** Organs of which injuries and swellings have grades. */
const organs: readonly (readonly [name: string, words: RegExp])[] = [
  ['spleen', /\b(?:spleen|splenic)\b/i],
  ['liver', /\b(?:liver|hepatic)\b/i],
  ['kidney', /\b(?:kidneys?|renal|hydronephrosis)\b/i],
  ['pancreas', /\b(?:pancreas|pancreatic)\b/i],
  ['varicocele', /\bvaricocele\b/i],
  ['aorta', /\b(?:aorta|aortic)\b/i],
];
const graded = /\bgrade[sd]? (?:as )?(\d|[iv]{1,3})(?:[ab]\b|\b)(?!\s?(?:-|–|\/|to|or)\s?(?:\d|[iv]))/gi;
/** Grades of something else: of a tumour, a complication, an adverse effect, or of another day. */
const aside =
  /\b(?:SIR|CIRSE|Clavien|CTCAE|Fontaine|Rutherford|WHO|Gleason|ASA|Child|kidney disease|encephalopathy|complication|tumou?r|carcinoma|adenocarcinoma|differentiat\w+|reflux|stenosis|thrombus|TICI|Karnofsky|earlier|previous\w*|before|after|old|from grade|down to|up to|now|no longer|became|improv\w+|first|initial\w*|upgraded|downgraded|no|not|if|than|below|above|least|in (?:19|20)\d\d)\b/i;

const numbered = (grade: string) => roman[grade.toLowerCase()] ?? grade;

interface Grade extends Told {
  readonly organ: string;
  readonly grade: string;
}

/** The grades of a text, with the one organ that their clause names. */
const gradesIn: (text: string) => readonly Pick<Grade, 'organ' | 'grade'>[] = remembered(text =>
  text
    .slice(0, 5000)
    .split(/[.;,]\s|;/)
    .flatMap(clause => {
      const named = organs.filter(([, words]) => words.test(clause));
      const found = [...clause.matchAll(graded)].map(([, grade = '']) => numbered(grade));
      const [organ] = named;
      return organ && named.length === 1 && found.length === 1 && !aside.test(clause)
        ? [{ organ: organ[0], grade: found[0] ?? '' }]
        : [];
    }),
);

/** All grades of a text, whatever they are of. */
const anyGrades: (text: string) => readonly string[] = remembered(text =>
  [...text.slice(0, 5000).matchAll(graded)].map(([, grade = '']) => numbered(grade)),
);

const gradesOf = ({ path, text }: Told): readonly Grade[] =>
  gradesIn(text).map(one => ({ path, text, ...one }));

/** A grade of the outcome or the conclusion, where two places or more agree on another one for the same organ. */
export function checkGrades(record: CaseRecord): Finding[] {
  const told = toldAfter(record).flatMap(gradesOf);
  if (told.length === 0) return [];
  const texts = [
    ...toldBefore(record),
    ...conditionsTold(record),
    ...Object.entries(record.targets ?? {}).flatMap(([key, { what, lesion }]) => [
      { path: `targets.${key}.what`, text: what.text },
      { path: `targets.${key}.lesion`, text: `${what.text} ${lesion?.text ?? ''}` },
    ]),
    ...(record.findings ?? []).map(({ text }, i) => ({ path: `findings[${i}].text`, text })),
    ...toldAfter(record),
  ];
  const beside = texts.flatMap(gradesOf);
  const said = new Set<string>();
  return told.flatMap(({ path, text, organ, grade }) => {
    const same = beside.filter(one => one.organ === organ && one.path !== path);
    const grades = new Set(same.map(one => one.grade));
    const places = new Set(same.map(one => one.path));
    const [first] = same;
    if (!first || grades.size !== 1 || grades.has(grade) || places.size < 2 || said.has(path)) return [];
    if (texts.some(one => one.path !== path && anyGrades(one.text).includes(grade))) return [];
    said.add(path);
    return [
      finding('clinical.measurement-differs', path, {
        what: text,
        value: `grade ${grade}`,
        other: `grade ${first.grade}`,
        place: first.path,
      }),
    ];
  });
}
