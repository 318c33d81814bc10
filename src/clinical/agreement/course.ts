import { verbs } from '../../devices/tally/verbs.js';
import { type Finding, finding } from '../../findings/finding.js';
import { entriesOf } from '../../record/entries.js';
import type { CaseRecord } from '../../record/schema/record.js';

/** Consent, status, outcome and death against what the rest of the record tells. */
export function checkCourse(record: CaseRecord): Finding[] {
  return [...consent(record), ...notDone(record), ...outcome(record), ...death(record)];
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
  const said = (path: string, what: string) => finding('clinical.not-done-with-events', path, { what });
  const event = (record.events ?? []).findIndex(({ do: verb }) => verbs[verb].effect !== 'any');
  const drugs = entriesOf(record.drugs);
  const drug = drugs.findIndex(one => one.for !== undefined && during.has(one.for));
  const used = Object.entries(record.devices ?? {}).find(
    ([, { use, carried }]) => use === 'used' && carried === undefined,
  );
  const contrast = record.contrast === 'none' ? undefined : record.contrast?.[0];
  const specimen = record.specimens === 'none' ? undefined : record.specimens?.[0];
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

const died =
  /\b(?:died|deceased|pronounced dead|(?:death|dead) (?:was )?(?:declared|confirmed|certified|pronounced|in the room|on the table)|declared dead|passed away|mors in tabula)\b/i;
const denied = /\b(?:no|not|never|nobody|without|if|risk of|father|mother|brother|sister)\b/i;
/** Words of what is done for one who has died, or for the family. */
const afterDeath =
  /\b(?:coroner|mortuary|morgue|post-?mortem|autopsy|necropsy|death|died|deceased|dead|body|family|relatives|next of kin|bereave\w+|chaplain|leave (?:in|all|the)|left in place|do not remove|stays? in place|police|examiner|inquest|debrief\w*|incident|morbidity|notif\w+|inform|register|funeral|organ donation)\b/i;
const alive =
  /\b(?:well|stable|comfortable|awake|alert|talk\w*|walk\w*|eating|improv\w+|pain \d|moves|oriented|feels)\b/i;

/** The path of what records a death, if anything does. */
export function deathIn(record: CaseRecord): { readonly path: string; readonly text: string } | undefined {
  const list = entriesOf(record.complications);
  const harmed = list.findIndex(({ harm }) => harm === 'death');
  if (harmed >= 0) return { path: `complications[${harmed}].harm`, text: list[harmed]?.what.text ?? '' };
  const { text, condition, disposition } = record.outcome ?? {};
  const places = [
    ['outcome.condition', condition],
    ['outcome.text', text],
    ['outcome.disposition', disposition],
    ['conclusion', record.conclusion],
  ] as const;
  for (const [path, told] of places)
    for (const clause of (told ?? '').split(/[;.]/))
      if (died.test(clause) && !denied.test(clause.slice(0, died.exec(clause)?.index)))
        return { path, text: clause.trim() };
  return undefined;
}

function death(record: CaseRecord): Finding[] {
  const dead = deathIn(record);
  if (!dead) return [];
  const differs = (path: string, text: string) =>
    finding('clinical.death-differs', path, { text, place: dead.path, death: dead.text });
  const { condition, disposition } = record.outcome ?? {};
  const findings: Finding[] = [];
  if (disposition !== undefined && !afterDeath.test(disposition))
    findings.push(differs('outcome.disposition', disposition));
  if (condition !== undefined && alive.test(condition) && !afterDeath.test(condition))
    findings.push(differs('outcome.condition', condition));
  record.aftercare?.forEach((item, i) => {
    if (item.by === 'patient' || !afterDeath.test(`${item.do} ${item.when ?? ''} ${item.call ?? ''}`))
      findings.push(differs(`aftercare[${i}].do`, item.do));
  });
  const advice = record.advice?.patient?.[0];
  if (advice !== undefined) findings.push(differs('advice.patient', advice));
  record.advice?.ward?.forEach((text, i) => {
    if (!afterDeath.test(text)) findings.push(differs(`advice.ward[${i}]`, text));
  });
  return findings;
}
