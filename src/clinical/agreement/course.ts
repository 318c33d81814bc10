import { verbs } from '../../devices/tally/verbs.js';
import { type Finding, finding } from '../../findings/finding.js';
import { message } from '../../findings/message.js';
import { entriesOf } from '../../record/entries.js';
import type { CaseRecord } from '../../record/schema/record.js';
import { toldAfter } from '../texts.js';
import { checkConsent } from './consent.js';

/** Consent, status and outcome against what the rest of the record tells. */
export function checkCourse(record: CaseRecord): Finding[] {
  return [...checkConsent(record), ...notDone(record), ...outcome(record)];
}

/** Drugs that are given once the case has begun. */
const during = new Set([
  'local anaesthesia',
  'thrombolysis',
  'haemostasis',
  'vasodilatation',
  'anticoagulation',
]);

/** Complications that only what was put in can have. */
const ofPuncture =
  /\b(?:ha?ematoma|bleeding|ha?emorrhage|perforation|dissection|pneumothorax|ha?emothorax|pseudo-?aneurysm|extravasation|embolisation|embolization|puncture|leak)\b/i;

function notDone(record: CaseRecord): Finding[] {
  if (record.case.status !== 'not done') return [];
  // Without an event a case that was stopped early is no whole record either.
  const remedy = record.events?.length ? {} : { remedy: message('answer.notDone') };
  const said = (path: string, what: string) =>
    finding('clinical.not-done-with-events', path, { what }, remedy);
  const event = (record.events ?? []).findIndex(({ do: verb }) => verbs[verb].effect !== 'any');
  const drugs = entriesOf(record.drugs);
  const drug = drugs.findIndex(one => one.for !== undefined && during.has(one.for));
  const used = Object.entries(record.devices ?? {}).find(
    ([, { use, carried }]) => use === 'used' && carried === undefined,
  );
  const contrast = entriesOf(record.contrast)[0];
  const specimen = entriesOf(record.specimens)[0];
  const { radiation } = record;
  const screened = radiation !== undefined && radiation !== 'none' ? radiation.fluoroscopyTime : undefined;
  const complications = entriesOf(record.complications);
  const wound = complications.findIndex(({ what }) => ofPuncture.test(what.text));
  return [
    ...(event >= 0 ? [said(`events[${event}]`, record.events?.[event]?.do ?? '')] : []),
    ...(drug >= 0 ? [said(`drugs[${drug}]`, drugs[drug]?.drug.text ?? '')] : []),
    ...(contrast ? [said('contrast[0]', contrast.agent.text)] : []),
    ...(used ? [said(`devices.${used[0]}`, used[1].kind)] : []),
    ...(specimen ? [said('specimens[0]', specimen.what.text)] : []),
    ...(screened && screened.value !== '0'
      ? [said('radiation.fluoroscopyTime', `${screened.value} ${screened.unit}`)]
      : []),
    ...(wound >= 0 ? [said(`complications[${wound}]`, complications[wound]?.what.text ?? '')] : []),
  ];
}

function outcome(record: CaseRecord): Finding[] {
  const overall = record.outcome?.overall;
  if (overall === undefined) return [];
  const targets = Object.entries(record.targets ?? {});
  const said = targets.filter(([, { success }]) => success !== undefined);
  const differs = (path: string, value: string) =>
    finding('clinical.outcome-differs', 'outcome.overall', {
      overall: { term: 'success', value: overall },
      other: value,
      place: path,
    });
  const failed = said.find(([, { success }]) => success === 'unsuccessful');
  const worked = said.every(([, { success }]) => success === 'successful');
  if (overall === 'successful' && failed)
    return [differs(`targets.${failed[0]}.success`, failed[1].success ?? '')];
  if (overall === 'unsuccessful' && said.length > 0 && said.length === targets.length && worked)
    return [differs(`targets.${said[0]?.[0] ?? ''}.success`, 'successful')];
  const none = !said.some(([, { success }]) => success === 'successful');
  if (overall === 'successful' && record.case.status !== 'completed' && none)
    return [differs('case.status', record.case.status)];
  return [...followed(record, differs), ...inWords(record, differs), ...operated(record, differs)].slice(
    0,
    1,
  );
}

type Differs = (path: string, value: string) => Finding;

/** A success after which the same is to be tried again, or operated on, because it could not be done. */
function followed({ outcome }: CaseRecord, differs: Differs): Finding[] {
  const next = outcome?.followedBy;
  return outcome?.overall === 'successful' && next !== undefined && next !== 'transfer'
    ? [differs('outcome.followedBy', next)]
    : [];
}

const toTheatre =
  /\b(?:theat(?:re|er)|surgery|operating room|laparotomy|thoracotomy|operation)\b.*\b(?:because|for|since|as) (?:the )?(?:\w+ ){0,4}(?:bleed\w*|perforat\w*|leak\w*|went on|goes on|continu\w+|persist\w*|fail\w*)\b/i;

/** A success after which the patient was operated on for what was to be treated. */
function operated({ outcome }: CaseRecord, differs: Differs): Finding[] {
  if (outcome?.overall !== 'successful') return [];
  const told = (['disposition', 'condition', 'text'] as const).find(field =>
    toTheatre.test(outcome[field] ?? ''),
  );
  return told ? [differs(`outcome.${told}`, outcome[told] ?? '')] : [];
}

const couldNot =
  /\b(?:could not|couldn't|cannot|can't|unable to|failed to|failure to|not able to|impossible to) (?:\w+ ){0,3}(?:reach\w*|cross\w*|enter\w*|catheteri[sz]\w*|cannulat\w*|puncture\w*|be (?:\w+ )?(?:done|placed|inserted|treated|reached|crossed|entered|found|sampled|biopsied|drained|opened|closed|embolised|embolized|deployed|advanced|passed|seen|removed|retrieved))\b|\bnot (?:embolised|embolized|treated|drained|biopsied|sampled|stented|ablated|reached|crossed|recanali[sz]ed|retrieved)\b|\b(?:remains|still) (?:occluded|patent and bleeding|untreated|undrained)\b/i;
const worked =
  /\b(?:technical(?:ly)? success(?:ful)?|successful(?:ly)?|complete success|uneventful(?:ly)? and complete|good result)\b/i;
const not =
  /\b(?:no|not|never|without|un\w+|partial\w*|initial\w*|before|at first|first|previous\w*|earlier|elsewhere)\b/i;
const later = /\b(?:at first|first|initially|then|later|after|finally|until|eventually|by the|so|but)\b/i;

/** The whole outcome in words, or a target that was not reached, against the fields. */
function inWords(record: CaseRecord, differs: Differs): Finding[] {
  const overall = record.outcome?.overall;
  const ends = toldAfter(record).filter(({ path }) => path === 'outcome.text' || path === 'conclusion');
  const clauses = (text: string) => text.split(/[.;]\s|;|,\s/);
  if (overall === 'unsuccessful') {
    const told = ends.find(({ text }) =>
      clauses(text).some(
        clause => worked.test(clause) && !not.test(clause.slice(0, worked.exec(clause)?.index)),
      ),
    );
    return told ? [differs(told.path, told.text)] : [];
  }
  if (overall !== 'successful') return [];
  const about = (record.findings ?? []).flatMap(({ text, about: key }, i) =>
    key !== undefined && record.targets?.[key]?.success === 'successful'
      ? [{ path: `findings[${i}].text`, text }]
      : [],
  );
  const told = [...ends, ...about].find(({ text }) =>
    clauses(text).some(
      clause =>
        couldNot.test(clause) && !later.test(clause) && !/\b(?:side branch|distal end|fully)\b/i.test(clause),
    ),
  );
  return told ? [differs(told.path, told.text)] : [];
}
