import { type Finding, finding } from '../../findings/finding.js';
import type { CaseRecord } from '../../record/schema/record.js';
import { agesOn } from '../age.js';
import { conditionsTold, toldAfter, toldBefore, toldDuring, toldToReaders } from '../texts.js';

/** Words for one who is pregnant now. Common practice, no source. */
const expecting = new RegExp(
  [
    'pregnant(?! (?:women|relatives|visitors|sister|daughter|wife|staff))',
    '(?:ongoing|current|early|late|viable|intrauterine|ectopic|tubal|twin|known|advanced|term|molar) pregnancy',
    'in pregnancy|of pregnancy|pregnancy (?:of|at) \\d+|pregnancy,? \\d+ (?:weeks|wks)|(?:is|now) expecting|with child|gravid(?! 0)',
    "\\d+ ?(?:\\+ ?\\d )?(?:weeks?|wks?|/ ?40)(?:'|’)? ?(?:pregnant|gestation|gravid|of gestation|antenatal|amenorrh\\w+)",
    // Weeks, and not a blood pressure.
    '(?<![\\d/])(?:[4-9]|[123]\\d|4[0-2])(?: ?\\+ ?\\d)? ?/ ?40(?! ?mm)',
    '(?:positive|pos) (?:\\w+ ){0,2}(?:pregnancy test|b?-?(?:beta-?)?hcg)|(?:pregnancy test|b?-?(?:beta-?)?hcg)\\b[^.;,]{0,25}\\b(?:positive|pos)\\b|(?:pregnancy test|hcg) \\+',
    '(?:first|second|third|1st|2nd|3rd) trimester|antenatal|fo?etal|fo?etus|gestational (?:age|sac)|EDD|due date of (?:the|her) (?:baby|child)|placenta (?:praevia|previa|accreta|percreta|increta) (?:at|in)|missed (?:her|a) period|(?:period|menses) (?:is |are )?(?:\\w+ )?(?:weeks?|days?) (?:late|overdue)|lead (?:apron|shield)\\w* over (?:the |her )?(?:uterus|bump)',
  ]
    .map(one => `(?:${one})`)
    .join('|'),
  'i',
);
const whole = new RegExp(`(?<![\\w-])(?:${expecting.source})(?!\\w)`, 'i');
const denied =
  /\b(?:not|no|never|non|isn't|cannot|excluded|ruled out|denies|denied|before|after|since|last|previous|past|wish\w*|planning|plans|plan|desires?|hopes?|want\w*|when|if|in case|should|future|avoid\w*|history|until|prevent\w*|negative|trying|become|becoming|possible|risk|years? ago|complicated her|mother|sister|daughter|wife|exclude|asked (?:about|whether)|whether)\b/i;
const deniedAfter =
  /\b(?:excluded|ruled out|negative|not (?:possible|likely|present)|in (?:19|20)\d\d|years? ago|asked|test (?:\w+ ){0,3}negative|wanted|wished|planned|is no|impossible|denied|delivered|miscarried|terminated|ended)\b/i;
const notExpecting =
  /\b(?:not pregnant|isn't pregnant|non-?pregnant|pregnancy (?:was |is )?(?:excluded|ruled out)|(?:pregnancy test|hcg)\b[^.;,]{0,30}\b(?:negative|neg)|(?:negative|neg) (?:\w+ ){0,2}(?:pregnancy test|(?:beta-?)?hcg))\b/i;
/** What makes a pregnancy impossible. */
const infertile =
  /\b(?:hysterectom\w+|(?:post-?)?menopaus\w*|sterili[sz]\w+|tubal ligation|tubes tied|oophorectomy|ovariectomy|womb (?:was )?removed|absent uterus|no uterus|uterine agenesis|prepubertal|pre-?menarch\w*|before menarche|premature ovarian (?:failure|insufficiency)|transgender|trans woman|no womb)\b/i;
const spared =
  /\b(?:no|not|declin\w+|refus\w+|instead of|avoid\w*|alternative to|rather than|wish\w*|planned|before|pre-|peri-?)\b/i;
/** Past this age in years a yes is more likely a slip. Common practice, no source. */
const OLDEST = 58;

const clauses = (text: string) => text.split(/[.;,]\s|;|\bbut\b/);

const isExpecting = (text: string) =>
  clauses(text).some(clause => {
    const found = whole.exec(clause);
    if (!found) return false;
    return !denied.test(clause.slice(0, found.index)) && !deniedAfter.test(clause.slice(found.index));
  });
const isInfertile = (text: string) =>
  clauses(text).some(clause => {
    const found = infertile.exec(clause);
    return found !== null && !spared.test(clause.slice(0, found.index));
  });

/** The answer to the pregnancy question against sex, age, conditions and everything told. */
export function checkPregnancy(record: CaseRecord): Finding[] {
  const { pregnant, sex } = record.patient;
  if (pregnant === undefined) return [];
  const differs = (path: string, text: string) => [
    finding('clinical.pregnancy-differs', path, { text, answer: pregnant }),
  ];
  const told = [
    ...toldBefore(record),
    ...conditionsTold(record),
    ...toldDuring(record),
    ...toldAfter(record),
    ...toldToReaders(record),
  ];
  const years = agesOn(record.patient.birthDate, record.case.date);
  if (pregnant === 'yes') {
    if (sex === 'male') return differs('patient.pregnant', 'male');
    const against = told.find(({ text }) => notExpecting.test(text) || isInfertile(text));
    if (against) return differs(against.path, against.text);
    return years && (years.most < 9 || years.least > OLDEST)
      ? differs('patient.pregnant', record.patient.birthDate?.iso ?? '')
      : [];
  }
  // Of a man or a child only the mother can be meant.
  if (sex === 'male' || (years && years.most < 9)) return [];
  const expects = told.find(({ text }) => isExpecting(text));
  if (expects) return differs(expects.path, expects.text);
  const possible =
    pregnant === 'not applicable' && sex === 'female' && years && years.least >= 12 && years.most <= 50;
  return possible && !told.some(({ text }) => isInfertile(text))
    ? differs('patient.pregnant', record.patient.birthDate?.iso ?? '')
    : [];
}
