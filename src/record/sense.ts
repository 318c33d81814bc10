import { type Finding, finding } from '../findings/finding.js';
import { message } from '../findings/message.js';
import { entriesOf } from './entries.js';
import type { CaseRecord } from './schema/record.js';
import type { Moment } from './time.js';

/** Rules of the record as a whole: what its status asks for, and what should be said even when it is 'none'. */
export function checkSense(record: CaseRecord): Finding[] {
  return [...checkStatus(record), ...checkSaid(record), ...checkStart(record)];
}

function checkStatus(record: CaseRecord): Finding[] {
  const findings: Finding[] = [];
  const { case: head, report } = record;
  if (head.status !== 'completed' && !head.reason)
    findings.push(finding('record.reason-missing', 'case.status', { status: head.status }));
  if (report.status !== 'preliminary' && report.status !== 'withdrawn' && !report.signedAt)
    findings.push(finding('record.unsigned', 'report.status', { status: report.status }));
  if (
    (report.status === 'amended' || report.status === 'appended' || report.status === 'withdrawn') &&
    !report.change
  )
    findings.push(finding('record.change-missing', 'report.status', { status: report.status }));
  return findings;
}

type Silent =
  | 'allergies'
  | 'anticoagulants'
  | 'consent'
  | 'complications'
  | 'left'
  | 'contrast'
  | 'radiation'
  | 'drugs'
  | 'outcome'
  | 'specimens';

/** 'None' and 'not recorded' are different facts: where the difference matters to the next reader, silence is a warning. */
function checkSaid(record: CaseRecord): Finding[] {
  const done = record.case.status !== 'not done';
  const silent: [boolean, string, Silent, string?][] = [
    [record.before?.allergies === undefined, 'before.allergies', 'allergies'],
    [record.before?.anticoagulants === undefined, 'before.anticoagulants', 'anticoagulants'],
    [record.before?.consent === undefined, 'before.consent', 'consent', 'status'],
    [done && record.complications === undefined, 'complications', 'complications'],
    [done && record.left === undefined, 'left', 'left'],
    [done && record.contrast === undefined, 'contrast', 'contrast'],
    [done && record.radiation === undefined, 'radiation', 'radiation'],
    [done && record.drugs === undefined, 'drugs', 'drugs'],
    [done && record.outcome === undefined, 'outcome', 'outcome', 'overall'],
    [done && record.specimens === undefined, 'specimens', 'specimens'],
  ];
  return silent
    .filter(([missing]) => missing)
    .map(([, path, what, field]) =>
      // Consent and outcome cannot be 'none'.
      finding(
        'record.not-recorded',
        path,
        { what: message(`silent.${what}`) },
        field ? { remedy: message('answer.addWith', { path, field }) } : {},
      ),
    );
}

/**
 * The first and the last of the bare times within the case, by the clock, where they run from the small hours to the late
 * evening and no start tells which of them are of another day.
 */
function undatedNight({ case: head, events, drugs, before }: CaseRecord): [Moment, Moment] | undefined {
  if (head.started) return undefined;
  const given = entriesOf(drugs);
  const { signIn, timeOut, signOut } = before?.checklist ?? {};
  const times = [
    head.ended,
    signIn,
    timeOut,
    signOut,
    ...(events ?? []).map(e => e.at),
    ...given.map(d => d.at),
  ]
    .filter(at => at !== undefined)
    .filter(at => /^\d\d:/.test(at.text))
    .sort((a, b) => (a.clock < b.clock ? -1 : 1));
  const [first] = times;
  const last = times.at(-1);
  return first && last && first.clock < '06:00' && last.clock >= '18:00' ? [first, last] : undefined;
}

function checkStart(record: CaseRecord): Finding[] {
  const night = undatedNight(record);
  if (!night) return [];
  const [first, last] = night;
  return [
    finding('record.start-missing', 'case', { first: first.clock, last: last.clock, date: record.case.date }),
  ];
}

/** An order of times that cannot be is put right by the start, where that is what the record lacks. */
export function withNightRemedy(record: CaseRecord, found: Finding): Finding {
  return undatedNight(record) && (found.severity === 'error' || found.severity === 'warning')
    ? { ...found, remedy: message('remedy.record.start-missing') }
    : found;
}
