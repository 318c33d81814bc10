import { type Finding, finding } from '../../findings/finding.js';
import type { CaseRecord } from '../../record/schema/record.js';
import { agesOn } from '../age.js';
import { type Told, toldAfter, toldBefore, toldDuring } from '../texts.js';

const refuses = 'refus(?:ed|es|ing)|declin(?:ed|es|ing)';
const takesBack = 'withdr(?:ew|awn|aws)|revok(?:ed|es)|retracted|took back|denied';
/** What may stand before the name of this procedure; an adjective tells of another one. */
const lead =
  '(?:(?:the|this|our|any|all|every|a|an|to|have|undergo|accept|allow|go|on|ahead|through|continue|proceed|with|his|her|their|further|planned|proposed) ){0,5}';
const anyOfThem =
  'procedure|intervention|treatment(?! (?:with|by|for|of|in|under|using))|examination|case(?! (?:of|for))';
/** Names of procedures; they count where the kind or the title of the case has them as well. */
const named =
  'biops(?:y|ies)|drain(?:age)?|emboli[sz]ation|stent(?:ing)?|ablation|gastrostomy|nephrostomy|injection|angioplasty|filter|port|line|catheter|vertebroplasty|sclerotherapy|thrombectomy|thrombolysis|shunt|exchange|removal|retrieval|puncture|tube';
const wish =
  '(?:did|does|do) not (?:want|wish|agree)|(?:no longer|not any more) (?:wants?|wanted|agree[sd]?|wish(?:es|ed)?)';

/** Refusals of something; what a request says of another treatment is why this one is done. */
const ofSomething = new RegExp(
  `\\b(?:${refuses}|${wish}) ${lead}(${anyOfThem}|(?:${named})(?! (?:of|for|in)))\\b(?!-)`,
  'gi',
);
/** Words that say of themselves that there was no consent. */
const noConsent = new RegExp(
  [
    `\\b(?:${refuses}|${takesBack}) (?:\\w+ ){0,3}(?:consent|permission)\\b`,
    `\\bconsent (?:\\w+ ){0,2}(?:${refuses}|${takesBack}|not (?:given|obtained|taken|signed|valid|documented)|missing|unsigned|absent)\\b`,
    '\\b(?:no|without|lacks?|lacking) (?:\\w+ )?consent\\b(?! (?:issues?|questions?|problems?|needed))(?! (?:for|to) (?!the|this|it))',
    '\\b(?:did|does) not (?:give |have )?consent\\b(?! to (?!the|this|it|go|have))',
    `\\b(?:${wish})(?=\\s*(?:$|,|it\\b|this\\s*(?:$|,)|to (?:it|this|proceed|go on|go ahead|continue)\\s*(?:$|,|and\\b|because\\b|with (?:it|this)\\b)))`,
    '\\bsa(?:id|ys) no\\s*(?:$|,|and\\b|to (?:it|this|the procedure)\\b)',
    '\\basked (?:us|the operator|the team) to stop(?=\\s*(?:$|,|and\\b|because\\b|when\\b|after\\b|here\\b|the (?:procedure|case|intervention)\\b))',
    "\\bconsent form (?:\\w+ )?(?:unsigned|blank|missing|not signed)\\b|\\bagainst (?:her|his|their|the patient's) (?:will|wish(?:es)?)\\b",
  ].join('|'),
  'i',
);
/** A request tells of minds that were changed about other things. */
const mind =
  /\bchanged (?:her|his|their) mind\b(?! (?:about|on|and (?:now |then )?(?:want|agree|accept|ask|wish|would)))/i;
/** In the note on consent the bare word is enough, as long as it is not a leaflet that was declined. */
const inNote = new RegExp(
  `(?:^|\\b(?:patient|she|he|they|mother|father|parents?|daughter|son|wife|husband|consent|form)\\b(?: \\w+){0,3}?)\\s*(?:(?:${refuses}|${takesBack})(?=\\s*(?:$|[,:]|(?:to (?:sign|consent|give|go|have)|it|in|on|at|after|when|this|today|again|and|but|by)\\b))|not (?:signed|obtained|given)\\b)`,
  'i',
);
const aside =
  /\b(?:not|never|nobody) (?:\w+ ){0,2}(?:withdr|refus|declin|revok)|\b(?:initially|at first|before|until|so far|for years|had (?:\w+ )?(?:refused|declined)|earlier|previous(?:ly)?|last (?:week|month|year)|in (?:19|20)\d\d|surgery|surgical|operation|sedation|general ana?esthe\w+|transfusion|blood|hysterectomy|resection|photograph\w*|teaching|students?|research|study|data|then agreed|but (?:then )?agreed|now (?:agrees|wants|accepts)|emergency)\b/i;

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

const general = new RegExp(`^(?:${anyOfThem})$`, 'i');

/**
 * Whether what is refused is this case: a procedure that is pointed to by its own name, or all treatment. A request
 * tells of a treatment that was declined years ago, too.
 */
function ofThisCase(clause: string, done: string, path: string): boolean {
  const [request, note] = [path.startsWith('indication'), path === 'before.consent.note'];
  return [...clause.matchAll(ofSomething)].some(([whole, what = '']) =>
    general.test(what)
      ? !request || /\b(?:the|this|our|any|all|every)\b/i.test(whole)
      : done.includes(what.toLowerCase().replace(/(?:age|ing|y|ies|[sz]ation)$/, '')) &&
        (note || /\b(?:the|this|our)\b/i.test(whole)),
  );
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
  const done = `${head.kind} ${head.procedure?.text ?? ''}`.toLowerCase();
  const says = ({ path, text }: Told) =>
    clauses(text.slice(0, 5000)).some(
      clause =>
        (noConsent.test(clause) ||
          ofThisCase(clause, done, path) ||
          (!path.startsWith('indication') && mind.test(clause)) ||
          (path === 'before.consent.note' && inNote.test(clause.trim()))) &&
        !aside.test(clause),
    );
  const told = [...toldBefore(record), ...toldDuring(record), ...toldAfter(record)].find(says);
  return told ? [finding('clinical.consent-refused', told.path, {})] : [];
}
