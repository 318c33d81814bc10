import { verbs } from '../../devices/tally/verbs.js';
import { type Finding, finding } from '../../findings/finding.js';
import { entriesOf } from '../../record/entries.js';
import type { CaseRecord } from '../../record/schema/record.js';

/** Consent, status and outcome against what the rest of the record tells. */
export function checkCourse(record: CaseRecord): Finding[] {
  return [...consent(record), ...notDone(record), ...outcome(record)];
}

const withdrawn = /\b(?:withdr(?:ew|awn)|refused|declined|revoked)\b/i;
const notWithdrawn = /\b(?:not|never|no)\b[^.;]*\b(?:withdr(?:ew|awn)|refused|declined|revoked)\b/i;

function consent({ before, case: head }: CaseRecord): Finding[] {
  const given = before?.consent;
  if (!given || head.status === 'not done') return [];
  if (given.status === 'refused') return [finding('clinical.consent-refused', 'before.consent.status', {})];
  const note = given.note ?? '';
  return head.status === 'completed' && withdrawn.test(note) && !notWithdrawn.test(note)
    ? [finding('clinical.consent-refused', 'before.consent.note', {})]
    : [];
}

/** Drugs that are given once the case has begun. */
const during = new Set([
  'local anaesthesia',
  'thrombolysis',
  'haemostasis',
  'vasodilatation',
  'anticoagulation',
]);

function notDone(record: CaseRecord): Finding[] {
  if (record.case.status !== 'not done') return [];
  // Without an event a case that was stopped early is no whole record either.
  const remedy = record.events?.length
    ? {}
    : { remedy: 'Take out what did not happen; if the case had begun, set case.status and add the events.' };
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
  return [
    ...(event >= 0 ? [said(`events[${event}]`, record.events?.[event]?.do ?? '')] : []),
    ...(drug >= 0 ? [said(`drugs[${drug}]`, drugs[drug]?.drug.text ?? '')] : []),
    ...(contrast ? [said('contrast[0]', contrast.agent.text)] : []),
    ...(used ? [said(`devices.${used[0]}`, used[1].kind)] : []),
    ...(specimen ? [said('specimens[0]', specimen.what.text)] : []),
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
  return [];
}
