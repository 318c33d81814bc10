import { type Finding, finding } from '../../findings/finding.js';
import type { CaseRecord } from '../../record/schema/record.js';
import { sexOfOrgans, sexOfPerson } from '../../trade/body.js';
import { agesOn } from '../age.js';
import { conditionsTold, toldAfter, toldBefore, toldDuring, toldToReaders } from '../texts.js';
import { checkPregnancy } from './pregnancy.js';

/** Age, sex and pregnancy against what the texts say of the patient. */
export function checkPerson(record: CaseRecord): Finding[] {
  return [...age(record), ...sex(record), ...checkPregnancy(record)];
}

/** Everything told of the patient, as `[path, text]`. */
const texts = (record: CaseRecord): readonly (readonly [path: string, text: string])[] =>
  [...toldBefore(record), ...toldAfter(record), ...toldDuring(record), ...toldToReaders(record)].map(
    ({ path, text }) => [path, text] as const,
  );

const person =
  'woman|girl|lady|man|boy|gentleman|patient|child|person|female|male|infant|baby|toddler|smoker|pensioner|mother|widow|widower|farmer|teacher|nurse|[MF]';
const inYears = new RegExp(
  [
    `\\b(\\d{1,3})[- ]?(years?|yrs?|y|months?|mo)(?:[- ]of[- ]age|[- /]?(?:old|o))\\.?(?:\\s+(?:[\\w-]+\\s+){0,3}(?:${person})\\b)?`,
    `\\b(?:${person}|aged|age)\\s*,?\\s*(?:of|aged|age)?\\s+(\\d{1,3})\\b(?!\\s*(?:kg|cm|mm|%|months|weeks|days|min|m\\b|mL|h\\b|/|\\.\\d|x\\b))`,
    '(?:^|[.;]\\s)(\\d{1,3})\\s?(?:[MF]|yo|y/o)\\b',
  ].join('|'),
  'i',
);
/** The age of somebody or something else. */
const others =
  /\b(?:donor|mother|father|sister|brother|son|daughter|husband|wife|child of|children|graft|stent|fistula|fracture|scar)\b/i;
const times = /\b(?:when|at the age|since)\b/i;

/** An age in words may have been written some months before the case. */
const SLACK = 1;

function age(record: CaseRecord): Finding[] {
  const ages = agesOn(record.patient.birthDate, record.case.date);
  if (!ages) return [];
  for (const [path, text] of texts(record)) {
    const found = inYears.exec(text);
    if (!found) continue;
    const near = text.slice(Math.max(0, found.index - 25), found.index);
    const own = text.slice(found.index, found.index + found[0].length + 15);
    // 'Ill since March, a 73-year-old woman' tells her age: a time counts in its own clause alone.
    if (others.test(`${near}${own}`) || times.test(`${near.split(/[,;]/).at(-1) ?? ''}${own}`)) continue;
    const [, one, unit, other, short] = found;
    const years = /^mo/i.test(unit ?? '') ? Math.floor(Number(one) / 12) : Number(one ?? other ?? short);
    if (years >= ages.least - SLACK && years <= ages.most + SLACK) continue;
    return [
      finding('clinical.age-differs', path, {
        text: found[0],
        birth: { when: record.patient.birthDate ?? { text: '', iso: '' } },
        age: { number: String(ages.most) },
      }),
    ];
  }
  return [];
}

function sex(record: CaseRecord): Finding[] {
  const said = record.patient.sex;
  if (said !== 'female' && said !== 'male') return [];
  const about: readonly string[] = [
    record.case.kind,
    record.case.procedure?.text ?? '',
    record.planned?.text ?? '',
    ...Object.values(record.targets ?? {}).flatMap(({ what, lesion }) => [what.text, lesion?.text ?? '']),
    ...conditionsTold(record).map(({ text }) => text),
    record.before?.observations ?? '',
  ];
  const organ = about.find(text => {
    const sexOf = sexOfOrgans(text);
    return (
      sexOf !== undefined &&
      sexOf !== said &&
      !/\b(?:donor|no|not|never|mother|father|sister|brother|wife|husband|daughter|son|partner|family|transgender|trans)\b/i.test(
        text,
      )
    );
  });
  const other =
    organ ??
    texts(record).find(([, text]) => {
      const told = sexOfPerson(text);
      return told !== undefined && told !== said;
    })?.[1];
  return other === undefined
    ? []
    : [finding('clinical.sex-differs', 'patient.sex', { text: other, sex: { term: 'sex', value: said } })];
}
