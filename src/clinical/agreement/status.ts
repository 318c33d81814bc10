import { type Finding, finding } from '../../findings/finding.js';
import type { CaseRecord } from '../../record/schema/record.js';

/** The whole case, not a step of it: at the start of a sentence, or with the case as its subject. */
const ended =
  /^(?:abandoned|cancelled|canceled|aborted|called off|postponed|stopped (?:early|after|before|because))\b|\b(?:procedure|case|intervention|treatment) (?:was )?(?:abandoned|cancelled|canceled|aborted|called off|postponed|stopped|not (?:done|performed))\b/i;

/** A case that is completed by its status and ended early, or never begun, by its outcome or conclusion. */
export function checkStatus({ case: head, outcome, conclusion, events }: CaseRecord): Finding[] {
  if (head.status !== 'completed') return [];
  const places = [
    ['outcome.text', outcome?.text],
    ['conclusion', conclusion],
  ] as const;
  const told = places.find(([, text]) =>
    (text ?? '').split(/[.;]\s*/).some(sentence => ended.test(sentence.trim())),
  );
  // What was begun cannot be 'not done'.
  const status = events?.length ? 'stopped early' : 'not done';
  return told
    ? [finding('clinical.status-differs', 'case.status', { text: told[1] ?? '', place: told[0], status })]
    : [];
}
