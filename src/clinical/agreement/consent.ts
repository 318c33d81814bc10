import { type Finding, finding } from '../../findings/finding.js';
import type { CaseRecord } from '../../record/schema/record.js';
import { agesOn } from '../age.js';
import { type Told, toldAfter, toldBefore, toldDuring } from '../texts.js';

const refused =
  'withdr(?:ew|awn|aws)|refus(?:ed|es|ing)|declin(?:ed|es|ing)|revok(?:ed|es)|retracted|took back|denied';
/** Words that say of themselves that there was no consent. */
const noConsent = new RegExp(
  [
    `\\b(?:${refused}) (?:\\w+ ){0,3}(?:consent|permission|the (?:procedure|case|intervention|treatment|biopsy|operation|examination|drain|embolisation|stent|ablation))\\b`,
    `\\bconsent (?:\\w+ ){0,2}(?:${refused}|not (?:given|obtained|taken|signed|valid|documented)|missing|unsigned|absent)\\b`,
    '\\b(?:no|without|lacks?|lacking) (?:\\w+ )?consent\\b',
    '\\b(?:did|does) not (?:give |want |wish |agree|consent)(?:\\w+ )?(?:consent|to (?:go|have|proceed|the)|the|it|this)?',
    "\\bchanged (?:her|his|their) mind\\b|\\bsa(?:id|ys) no\\b|\\bnot? longer (?:wants|wanted|agrees|wishes)\\b|\\basked (?:us|the operator|the team) to stop\\b|\\bconsent form (?:\\w+ )?(?:unsigned|blank|missing|not signed)\\b|\\bagainst (?:her|his|their|the patient's) (?:will|wish(?:es)?)\\b",
  ].join('|'),
  'i',
);
/** In the note on consent the bare word is enough. */
const inNote = new RegExp(`\\b(?:${refused})\\b|\\bnot (?:signed|obtained|given)\\b`, 'i');
const aside =
  /\b(?:not|never|nobody) (?:\w+ ){0,2}(?:withdr|refus|declin|revok)|\b(?:initially|at first|before|earlier|previous(?:ly)?|last (?:week|month|year)|in (?:19|20)\d\d|surgery|operation|sedation|general ana?esthe\w+|transfusion|blood|hysterectomy|resection|photograph\w*|teaching|students?|research|study|data|then agreed|but (?:then )?agreed|emergency)\b/i;

const clauses = (text: string) => text.split(/[.;]\s|;/);

/** Years under which nobody consents for himself anywhere. Common practice, no source. */
const OWN_CONSENT = 10;
const himself =
  /^\s*(?:the )?(?:patient|himself|herself|themselves|self|child|boy|girl)(?: (?:himself|herself))?\s*$/i;

/** Consent of a small child by itself. */
function ownConsent({ before, patient, case: head }: CaseRecord): Finding | undefined {
  const ages = agesOn(patient.birthDate, head.date);
  const by = before?.consent?.by;
  return ages && by !== undefined && ages.most < OWN_CONSENT && himself.test(by)
    ? finding('clinical.age-differs', 'before.consent.by', {
        text: by,
        birth: { when: patient.birthDate ?? { text: '', iso: '' } },
        age: { number: String(ages.most) },
      })
    : undefined;
}

/** Consent that was refused, withdrawn or never given, wherever it is told, in a case that was carried out. */
export function checkConsent(record: CaseRecord): Finding[] {
  const { before, case: head } = record;
  if (head.status === 'not done') return [];
  if (before?.consent?.status === 'refused')
    return [finding('clinical.consent-refused', 'before.consent.status', {})];
  const young = ownConsent(record);
  if (young) return [young];
  // A case that stopped because consent was withdrawn did right; an emergency needs none.
  if (head.status !== 'completed' || before?.consent?.status !== 'given') return [];
  const says = ({ path, text }: Told) =>
    clauses(text).some(
      clause =>
        (noConsent.test(clause) || (path === 'before.consent.note' && inNote.test(clause))) &&
        !aside.test(clause),
    );
  const told = [...toldBefore(record), ...toldDuring(record), ...toldAfter(record)].find(says);
  return told ? [finding('clinical.consent-refused', told.path, {})] : [];
}
