import { type Finding, finding } from '../findings/finding.js';
import type { CaseRecord, Complication } from '../record/schema/record.js';
import { type Calculation, type Input, notAssessed } from './calculation.js';

export type Scale = 'CIRSE 2017' | 'CIRSE 2025' | 'SIR 2017' | 'Clavien-Dindo';

const sources: Record<Scale, string> = {
  'CIRSE 2017': 'Filippiadis et al., CVIR 2017;40:1141',
  'CIRSE 2025': 'modified CIRSE scale, CVIR 2026;49:2 (doi 10.1007/s00270-025-04200-w)',
  'SIR 2017': 'Khalilzadeh et al., JVIR 2017;28:1432; levels from memory',
  'Clavien-Dindo': 'Dindo et al., Ann Surg 2004;240:205',
};

/** A grade, or why the recorded consequences do not decide it. */
type Grade = { readonly grade: string } | { readonly why: string };

const silent: Grade = { why: 'treatment, stay and harm are not recorded' };

/** True when nothing that a scale looks at was recorded. */
function unrecorded(c: Complication): boolean {
  return c.treatment === undefined && c.stay === undefined && c.harm === undefined;
}

/** Treatment beyond what the case itself needed. */
const extra = (c: Complication) => !['none', 'nominal', 'same session', undefined].includes(c.treatment);
const prolonged = (c: Complication) => c.stay !== undefined && c.stay !== 'not prolonged';

/**
 * CIRSE 2017: 1 solved in the same session; 2 stay prolonged under 48 h, no further therapy; 3 further therapy or stay
 * over 48 h, no sequelae; 4 mild permanent sequelae; 5 severe sequelae; 6 death.
 */
export function cirse2017(c: Complication): Grade {
  if (c.harm === 'death') return { grade: '6' };
  if (c.harm === 'permanent severe') return { grade: '5' };
  if (c.harm === 'permanent mild') return { grade: '4' };
  if (unrecorded(c)) return silent;
  if (extra(c) || c.stay === 'prolonged over 48 hours') return { grade: '3' };
  return { grade: prolonged(c) ? '2' : '1' };
}

/**
 * The modified scale splits grade 1 by whether the procedure still succeeded (1a, 1b); the cut between 3a and 3b is not
 * worked out here, so grade 3 stays undecided.
 */
export function cirse2025(c: Complication, succeeded: boolean | undefined): Grade {
  const old = cirse2017(c);
  if (!('grade' in old)) return old;
  if (old.grade === '3')
    return { why: 'grade 3a or 3b: the length of stay that divides them is not in the tables used here' };
  if (old.grade !== '1') return old;
  return succeeded === undefined
    ? { why: 'grade 1a or 1b: the outcome is not recorded' }
    : { grade: succeeded ? '1a' : '1b' };
}

/** SIR 2017, from memory: 1 mild, 2 moderate, 3 severe, 4 life-threatening or disabling, 5 death. */
export function sir2017(c: Complication): Grade {
  if (c.harm === 'death') return { grade: '5' };
  if (c.harm === 'permanent severe' || c.treatment === 'intensive care') return { grade: '4' };
  if (unrecorded(c)) return silent;
  if (
    c.treatment === 'intervention under general anaesthesia' ||
    (c.stay?.startsWith('prolonged') && c.stay !== 'prolonged under 24 hours')
  )
    return { grade: '3' };
  return {
    grade: c.treatment === 'intervention' || c.treatment === 'transfusion' || prolonged(c) ? '2' : '1',
  };
}

/** Clavien–Dindo: I no drug but the simplest; II drugs, transfusion; IIIa/IIIb intervention without/with general anaesthesia; IV intensive care; V death. */
export function clavienDindo(c: Complication): Grade {
  if (c.harm === 'death') return { grade: 'V' };
  if (c.treatment === undefined) return { why: 'the treatment is not recorded' };
  if (c.treatment === 'intensive care')
    return { why: 'grade IVa or IVb: the number of failing organs is not recorded' };
  if (c.treatment === 'intervention under general anaesthesia') return { grade: 'IIIb' };
  if (c.treatment === 'intervention') return { grade: 'IIIa' };
  return { grade: c.treatment === 'drugs' || c.treatment === 'transfusion' ? 'II' : 'I' };
}

function gradeOn(scale: Scale, c: Complication, succeeded: boolean | undefined): Grade {
  switch (scale) {
    case 'CIRSE 2017':
      return cirse2017(c);
    case 'CIRSE 2025':
      return cirse2025(c, succeeded);
    case 'SIR 2017':
      return sir2017(c);
    case 'Clavien-Dindo':
      return clavienDindo(c);
  }
}

/** Scales that are worked out unless the site chooses others: those whose levels were read in a source. */
export const defaultScales: readonly Scale[] = ['CIRSE 2017', 'Clavien-Dindo'];

/** Grades each complication on the scales of the site, and compares with the grade that was written. */
export function assessComplications(
  record: CaseRecord,
  scales: readonly Scale[] = defaultScales,
): { calculations: Calculation[]; findings: Finding[] } {
  const list = record.complications === 'none' ? [] : (record.complications ?? []);
  const succeeded = record.outcome && record.outcome.overall !== 'unsuccessful';
  const calculations: Calculation[] = [];
  const findings: Finding[] = [];
  list.forEach((c, index) => {
    const path = `complications[${index}]`;
    if (!c.grade) findings.push(finding('clinical.grade-missing', path, { what: c.what.text }));
    const inputs: Input[] = (['treatment', 'stay', 'harm'] as const).flatMap(name =>
      c[name] === undefined ? [] : [{ name, value: c[name], path: `${path}.${name}` }],
    );
    const used = c.grade && !scales.includes(c.grade.scale) ? [...scales, c.grade.scale] : scales;
    for (const scale of used) {
      const graded = gradeOn(scale, c, succeeded);
      const base = {
        key: `grade/${index + 1}/${scale}`,
        group: 'adverse events',
        what: `Grade of '${c.what.text}' on ${scale}`,
        rule: 'from treatment, stay and harm as recorded',
        basis: sources[scale],
      } as const;
      if (!('grade' in graded)) {
        calculations.push(notAssessed(base, graded.why, inputs));
        continue;
      }
      calculations.push({ ...base, inputs, result: { text: graded.grade } });
      const { grade } = c;
      if (grade?.scale === scale && plain(grade.grade) !== plain(graded.grade) && !unrecorded(c))
        findings.push(
          finding(
            'clinical.grade-differs',
            `${path}.grade`,
            { what: c.what.text, written: grade.grade, scale, computed: graded.grade },
            { basis: sources[scale] },
          ),
        );
    }
  });
  return { calculations, findings };
}

/** Grades compare without case, blanks, the word grade, and the suffix d of a lasting disability. */
const plain = (grade: string) =>
  grade
    .toLowerCase()
    .replace(/grade|\s/g, '')
    .replace(/d$/, '');
