import { type Finding, finding } from '../../findings/finding.js';
import { message } from '../../findings/message.js';
import { say } from '../../findings/say.js';
import { entriesOf } from '../../record/entries.js';
import type { CaseRecord, Complication } from '../../record/schema/record.js';
import {
  type Calculation,
  type CalculationBase,
  type Input,
  inputOf,
  notAssessed,
  told,
} from '../calculation.js';
import { either } from '../limits.js';
import {
  cirse2017,
  cirse2025,
  clavienDindo,
  defaultScales,
  type Grade,
  type Scale,
  scaleSources,
  sir2017,
} from './adverse-event-scales.js';

type Overall = NonNullable<CaseRecord['outcome']>['overall'];

function gradeOn(scale: Scale, c: Complication, overall: Overall | undefined): Grade {
  switch (scale) {
    case 'CIRSE 2017':
      return cirse2017(c);
    case 'CIRSE 2025':
      return cirse2025(c, overall);
    case 'SIR 2017':
      return sir2017(c);
    case 'Clavien-Dindo':
      return clavienDindo(c);
  }
}

/** Grades each complication on the scales of the site, and compares with the grade that was written. */
export function assessComplications(
  record: CaseRecord,
  scales: readonly Scale[] = defaultScales,
): { calculations: Calculation[]; findings: Finding[] } {
  const list = entriesOf(record.complications);
  const calculations: Calculation[] = [];
  const findings: Finding[] = [];
  for (const [index, c] of list.entries()) {
    const path = `complications[${index}]`;
    if (!c.grade) findings.push(finding('clinical.grade-missing', path, { what: c.what.text }));
    const used = new Set(c.grade ? [...scales, c.grade.scale] : scales);
    for (const scale of used) {
      const graded = gradeOn(scale, c, record.outcome?.overall);
      calculations.push(calculationOf(c, index, scale, graded));
      if (c.grade?.scale !== scale) continue;
      const allowed = 'grade' in graded ? [graded.grade] : graded.oneOf;
      const written = c.grade.grade;
      if (allowed && !allowed.some(grade => plain(grade, scale) === plain(written, scale)))
        findings.push(
          finding(
            'clinical.grade-differs',
            `${path}.grade`,
            { what: c.what.text, written, scale, computed: either(allowed) },
            { basis: say(scaleSources[scale]) },
          ),
        );
    }
  }
  return { calculations, findings };
}

function calculationOf(c: Complication, index: number, scale: Scale, graded: Grade): Calculation {
  const path = `complications[${index}]`;
  const names = ['treatment', 'stay', 'harm'] as const;
  const inputs: Input[] = names.flatMap(name =>
    c[name] === undefined
      ? []
      : [inputOf(message(`input.${name}`), { term: name, value: c[name] }, `${path}.${name}`)],
  );
  const base: CalculationBase = {
    key: `grade/${index + 1}/${scale}`,
    group: 'adverse events',
    what: message('calculation.grade', { what: c.what.text, scale }),
    rule: message('rule.grade'),
    basis: scaleSources[scale],
  };
  return 'grade' in graded ? told(base, graded.grade, inputs) : notAssessed(base, graded.why, inputs);
}

/** Grades compare without case, blanks and the word grade; on Clavien–Dindo also without the suffix d of a lasting disability. */
function plain(grade: string, scale: Scale): string {
  const bare = grade.toLowerCase().replace(/grade|\s/g, '');
  return scale === 'Clavien-Dindo' ? bare.replace(/-?d$/, '') : bare;
}
