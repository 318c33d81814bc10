/** The grades of each published scale, the least first. */
const scales: ReadonlyMap<string, readonly string[]> = new Map(
  Object.entries({
    'CIRSE 2017': ['1', '2', '3', '4', '5', '6'],
    'CIRSE 2025': ['1a', '1b', '2', '3a', '3b', '4', '5', '6'],
    'SIR 2017': ['1', '2', '3', '4', '5'],
    'Clavien-Dindo': ['I', 'II', 'IIIa', 'IIIb', 'IVa', 'IVb', 'V'],
  }),
);

/** The suffix of Clavien-Dindo says that harm lasted at discharge; it is no grade of its own. */
const bare = (grade: string) => grade.replace(/d$/, '');

/** True for a grade of a scale. */
export const isGrade = (scale: string, grade: string): boolean =>
  scales.get(scale)?.includes(bare(grade)) === true;

/** Every grade as `SCALE GRADE`, scale by scale, the least first: the order of columns. */
export const allGrades: readonly string[] = [...scales].flatMap(([scale, grades]) =>
  grades.map(grade => `${scale} ${grade}`),
);

/**
 * The highest grade of a case as `SCALE GRADE`, 'ungraded' where none of its complications has one. Of two scales, the
 * grade further up its own counts.
 */
export function highestGrade(complications: readonly string[]): string {
  const ranked = complications.flatMap(text => {
    const at = text.lastIndexOf(' ');
    const [scale, grade] = [text.slice(0, at), bare(text.slice(at + 1))];
    const grades = scales.get(scale) ?? [];
    const place = grades.indexOf(grade);
    return place === -1 ? [] : [{ text: `${scale} ${grade}`, height: (place + 1) / grades.length }];
  });
  const [first] = ranked.toSorted((a, b) => b.height - a.height);
  return first?.text ?? 'ungraded';
}
