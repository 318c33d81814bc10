import { catalogue } from '../findings/catalogue.js';
import { type Finding, finding } from '../findings/finding.js';
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

/** 'None' and 'not recorded' are different facts: where the difference matters to the next reader, silence is a warning. */
function checkSaid(record: CaseRecord): Finding[] {
  const done = record.case.status !== 'not done';
  const silent: [boolean, string, string, string?][] = [
    [record.before?.allergies === undefined, 'before.allergies', 'Allergies'],
    [record.before?.anticoagulants === undefined, 'before.anticoagulants', 'Drugs that affect bleeding'],
    [record.before?.consent === undefined, 'before.consent', 'Consent', 'status'],
    [done && record.complications === undefined, 'complications', 'Complications'],
    [done && record.left === undefined, 'left', 'What stays in the patient'],
    [done && record.contrast === undefined, 'contrast', 'Contrast'],
    [done && record.radiation === undefined, 'radiation', 'Radiation'],
    [done && record.drugs === undefined, 'drugs', 'Drugs given'],
    [done && record.outcome === undefined, 'outcome', 'Outcome', 'overall'],
    [done && record.specimens === undefined, 'specimens', 'Specimens'],
  ];
  return silent
    .filter(([missing]) => missing)
    .map(([, path, what, field]) =>
      // Consent and outcome cannot be 'none'.
      finding('record.not-recorded', path, { what }, field ? { remedy: `Add ${path} with ${field}.` } : {}),
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
    ? { ...found, remedy: catalogue['record.start-missing'].remedy }
    : found;
}
