import { entriesOf } from '../record/entries.js';
import { convert } from '../record/quantity.js';
import type { CaseRecord } from '../record/schema/record.js';
import { caseKindNamed } from '../trade/cases/table.js';
import type { CaseFigures } from './facts.js';
import { isGrade } from './measures/grades.js';

/** What a case tells beside its devices, in words of the tables alone: nothing of it was typed by anybody. */
export function caseFigures(record: CaseRecord): CaseFigures {
  const kinds = caseKindNamed(record.case.kind)?.rows.map(({ name }) => name) ?? [];
  return {
    kinds,
    status: record.case.status,
    complications: complicationsOf(record),
    kermaArea: kermaAreaOf(record),
  };
}

function complicationsOf({ complications }: CaseRecord): CaseFigures['complications'] {
  if (complications === undefined) return 'not recorded';
  const all = entriesOf(complications);
  if (all.length === 0) return 'none';
  return all.map(({ grade }) =>
    grade && isGrade(grade.scale, grade.grade) ? `${grade.scale} ${grade.grade}` : 'ungraded',
  );
}

/** A figure with a bound, such as '< 5', is no figure. */
function kermaAreaOf({ radiation }: CaseRecord): string {
  if (radiation === 'none') return 'none';
  const given = radiation?.kermaAreaProduct;
  const value = given && !given.comparator ? convert(given, 'Gy.cm2') : undefined;
  return value?.toString() ?? 'not recorded';
}
