import { type Finding, finding } from '../../findings/finding.js';
import type { CaseRecord } from '../../record/schema/record.js';
import { type Told, toldAfter, toldDuring } from '../texts.js';

const whole = 'procedure|case|intervention|treatment|operation|session|examination';
const off =
  'abandon(?:ed|ing)?|cancell?ed|aborted|called off|postponed|deferred|terminated|given up|not (?:done|performed|attempted|carried out|started|possible|completed)|discontinued|unsuccessful|(?<!heart has |kidney has |liver has )failed';
/** The whole case, not a step of it: at the start of a sentence, or with the case as its subject. */
const ended = new RegExp(
  [
    `^(?:(?:was|had to be|has been|were) )?(?:abandoned|cancell?ed|aborted|called off|postponed|deferred|given up|gave up|giving up|not (?:done|performed|attempted|carried out|possible)|rebooked|rescheduled|stopped (?:early|after|before|because|short|half-?way)|bailed out|unsuccessful|failed)\\b(?! (?:attempts?|first|to (?:improve|respond|settle) before))`,
    `\\b(?:${whole}) (?:(?:was|is|has been|had to be|were|then|therefore) ){0,3}(?:${off}|stopped)\\b`,
    `\\b(?:abandoned|aborted|stopped|terminated|cancell?ed|gave up|discontinued|halted) the (?:${whole})\\b`,
    '\\bconver(?:ted|sion) to (?:an? )?(?:open|surg\\w+|laparo\\w+|thoracot\\w+|operation|endarterectomy|bypass)\\b',
    '\\b(?:taken|went|goes|sent|rushed) (?:straight |directly )?to theat(?:re|er)\\b',
    '\\b(?:technical(?:ly)? )?(?:failure|unsuccessful)$',
    '\\b(?:technical failure|failed procedure|unsuccessful (?:attempt|procedure)|had to stop|we stopped|gave up)\\b',
  ].join('|'),
  'i',
);
/** Said of an earlier case, of surgery, or of what did not happen. */
const aside =
  /\b(?:no|never|previous(?:ly)?|earlier|elsewhere|(?:done|attempted|tried) before|prior (?:attempt|procedure|case)|in (?:19|20)\d\d|years? ago|last (?:week|month|year)|first (?:attempt|pass|try)|if|should|medical|conservative|antibiotics?|banding|bypass surgery|chemotherapy|drug|attempts? at|until)\b/i;

const sentences = (text: string) =>
  text
    .split(/[.;:,]\s+|[;\n]|\s-\s|\band then\b/)
    .map(one => one.trim())
    .filter(one => one !== '');

const told = ({ text }: Told, words: RegExp) =>
  sentences(text).some(sentence => words.test(sentence) && !aside.test(sentence));

/** A case that is completed by its status and ended early, or never begun, by what is told of it. */
export function checkStatus(record: CaseRecord): Finding[] {
  const { case: head, outcome } = record;
  // What was begun cannot be 'not done'.
  const status = record.events?.length ? 'stopped early' : 'not done';
  if (head.status !== 'completed') return [];
  const differs = (text: string, place: string) =>
    finding('clinical.status-differs', 'case.status', { text, place, status });
  if (head.reason !== undefined) return [differs(head.reason.text, 'case.reason')];
  // A case that failed and says so is completed all the same.
  const failed = outcome?.overall === 'unsuccessful';
  const events = toldDuring(record).filter(({ path }) => path.startsWith('events'));
  const found =
    toldAfter(record).find(one => told(one, ended) && (!failed || leftOff.test(one.text))) ??
    events.find(one => told(one, wholeCase));
  return found ? [differs(found.text, found.path)] : [];
}

const leftOff =
  /\b(?:abandon|cancel|abort|called off|postpone|terminat|stopped|not (?:done|performed|attempted|carried out)|deferred|rebooked)/i;

/** In an event only the case itself can have ended: a step that failed is tried again. */
const wholeCase = new RegExp(
  `\\b(?:${whole}) (?:(?:was|is|has been|had to be) )?(?:abandoned|cancell?ed|aborted|called off|terminated|stopped|given up|discontinued)\\b|\\b(?:abandoned|aborted|stopped|terminated|cancell?ed|gave up|halted) the (?:${whole})\\b|\\bconverted to (?:open|surg\\w+|laparo\\w+)\\b`,
  'i',
);
