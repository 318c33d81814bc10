import { type Finding, finding } from '../../findings/finding.js';
import type { CaseRecord } from '../../record/schema/record.js';
import { sexOfOrgans, sexOfPerson } from '../../trade/body.js';
import { agesOn } from '../age.js';

/** Age, sex and pregnancy against what the texts say of the patient. */
export function checkPerson(record: CaseRecord): Finding[] {
  return [...age(record), ...sex(record), ...pregnancy(record)];
}

const texts = (record: CaseRecord) =>
  [
    ['indication.text', record.indication.text],
    ['indication.question', record.indication.question],
    ['before.observations', record.before?.observations],
    ['conclusion', record.conclusion],
    ['outcome.text', record.outcome?.text],
    ...(record.findings ?? []).map(({ text }, i) => [`findings[${i}].text`, text] as const),
  ] as const;

const inYears =
  /\b(\d{1,3})[- ](year|month)s?[- ]old\s+(?:[\w-]+\s+){0,2}(?:woman|girl|lady|man|boy|gentleman|patient|child|person|female|male|infant|baby|toddler|smoker|pensioner)\b|\b(?:woman|girl|lady|man|boy|gentleman|patient|child)\s+(?:of|aged)\s+(\d{1,3})\b(?!\s*(?:kg|cm|mm|months|weeks|days|m\b))/i;

/** An age in words may have been written some months before the case. */
const SLACK = 1;

function age(record: CaseRecord): Finding[] {
  const ages = agesOn(record.patient.birthDate, record.case.date);
  if (!ages) return [];
  for (const [path, text] of texts(record)) {
    const found = inYears.exec(text ?? '');
    if (!found || /\b(?:donor|mother|father|sister|brother)\b/i.test(text ?? '')) continue;
    const [, one, unit, other] = found;
    const years = unit?.toLowerCase() === 'month' ? Math.floor(Number(one) / 12) : Number(one ?? other);
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
    ...(record.indication.conditions ?? []).map(({ text }) => text),
  ];
  const organ = about.find(text => {
    const sexOf = sexOfOrgans(text);
    return (
      sexOf !== undefined && sexOf !== said && !/\b(?:donor|no|not|history|previous|after)\b/i.test(text)
    );
  });
  const person = sexOfPerson(record.indication.text);
  const other = organ ?? (person !== undefined && person !== said ? record.indication.text : undefined);
  return other === undefined
    ? []
    : [finding('clinical.sex-differs', 'patient.sex', { text: other, sex: { term: 'sex', value: said } })];
}

const expecting =
  /\b(?:is pregnant|pregnant (?:woman|patient|with)|(?:\d+ )?weeks? (?:pregnant|of (?:pregnancy|gestation)|gestation)|gravid|weeks' gestation|pregnancy test positive|positive pregnancy test|in (?:the )?(?:first|second|third) trimester|intrauterine pregnancy)\b/i;
const denied = /\b(?:not|no|never|excluded|ruled out|before|after|wish\w*|planning|when|if)\b[^,;.]*$/i;
const notExpecting =
  /\b(?:not pregnant|(?:pregnancy test|hcg)\b[^.;,]*\bnegative|negative (?:urine |serum )?(?:pregnancy test|(?:beta-?)?hcg))\b/i;
/** Past this age in years a yes is more likely a slip. Common practice, no source. */
const OLDEST = 58;
const womb = /\b(?:uter(?:us|ine)|fibroids?|ovar(?:y|ies|ian)|fallopian|endometri\w+|adenomyosis)\b/i;
const infertile =
  /\b(?:hysterectomy|menopaus\w+|postmenopausal|sterili[sz]\w+|oophorectomy|prepubertal|before menarche)\b/i;

function pregnancy(record: CaseRecord): Finding[] {
  const { pregnant, sex: said } = record.patient;
  const differs = (path: string, text: string) =>
    pregnant === undefined ? [] : [finding('clinical.pregnancy-differs', path, { text, answer: pregnant })];
  if (pregnant === 'yes') {
    if (said === 'male') return differs('patient.pregnant', 'male');
    const told = texts(record).find(([, text]) => notExpecting.test(text ?? ''));
    if (told) return differs(told[0], told[1] ?? '');
    const years = agesOn(record.patient.birthDate, record.case.date);
    return years && (years.most < 9 || years.least > OLDEST)
      ? differs('patient.pregnant', record.patient.birthDate?.iso ?? '')
      : [];
  }
  if (pregnant === 'no' || pregnant === 'not applicable') {
    const told = texts(record).find(([, text]) => {
      const found = expecting.exec(text ?? '');
      return found !== null && !denied.test((text ?? '').slice(0, found.index));
    });
    const condition = (record.indication.conditions ?? []).findIndex(({ text }) =>
      /^(?:pregnan\w+|intrauterine pregnancy)\b/i.test(text),
    );
    if (told) return differs(told[0], told[1] ?? '');
    if (condition >= 0)
      return differs(
        `indication.conditions[${condition}]`,
        record.indication.conditions?.[condition]?.text ?? '',
      );
  }
  const ages = agesOn(record.patient.birthDate, record.case.date);
  if (pregnant !== 'not applicable' || said !== 'female' || !ages || ages.least < 12 || ages.most > 50)
    return [];
  const about = [
    record.indication.text,
    record.case.kind,
    record.case.procedure?.text ?? '',
    ...(record.indication.conditions ?? []).map(({ text }) => text),
    ...Object.values(record.targets ?? {}).map(({ what }) => what.text),
  ];
  const all = [
    ...about,
    ...(record.before?.conditions ?? []).map(({ text }) => text),
    record.before?.observations ?? '',
  ];
  const organ = about.find(text => womb.test(text));
  return organ === undefined || all.some(text => infertile.test(text))
    ? []
    : differs('patient.pregnant', organ);
}
