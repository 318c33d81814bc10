import { type Finding, finding } from '../findings/finding.js';
import type { CaseRecord } from './schema/record.js';

/** Rules of the record as a whole: what its status asks for, and what should be said even when it is 'none'. */
export function checkSense(record: CaseRecord): Finding[] {
  return [...checkStatus(record), ...checkSaid(record)];
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
  const silent: [boolean, string, string][] = [
    [record.before?.allergies === undefined, 'before.allergies', 'Allergies'],
    [record.before?.anticoagulants === undefined, 'before.anticoagulants', 'Drugs that affect bleeding'],
    [record.before?.consent === undefined, 'before.consent', 'Consent'],
    [done && record.complications === undefined, 'complications', 'Complications'],
    [done && record.left === undefined, 'left', 'What stays in the patient'],
    [done && record.contrast === undefined, 'contrast', 'Contrast'],
    [done && record.radiation === undefined, 'radiation', 'Radiation'],
    [done && record.drugs === undefined, 'drugs', 'Drugs given'],
    [done && record.outcome === undefined, 'outcome', 'Outcome'],
    [done && record.specimens === undefined, 'specimens', 'Specimens'],
  ];
  return silent
    .filter(([missing]) => missing)
    .map(([, path, what]) => finding('record.not-recorded', path, { what }));
}
