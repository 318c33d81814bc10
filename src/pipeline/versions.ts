import type { Assessment } from '../clinical/assessment.js';
import { type ReportVersion, reportVersion } from '../fhir/resources/version.js';
import { type Finding, finding } from '../findings/finding.js';
import { allOf, inTurn, message } from '../findings/message.js';
import { say } from '../findings/say.js';
import { type ChangedFact, compareRecords, isAboutVersion } from '../record/changes/compare.js';
import type { CaseRecord } from '../record/schema/record.js';
import type { ReadPictures } from '../report/pictures/stored.js';

/** An earlier version of a case: what was sent before. */
export interface EarlierVersion {
  readonly record: CaseRecord;
  readonly assessment: Assessment;
  /** Pictures that it was sent with: they are part of its document. */
  readonly pictures?: ReadPictures;
  /** The submission that it went out in, where the outbox has it. */
  readonly sent?: string;
}

/** Earlier versions by number, lowest first; those without a number that counts keep their order. */
export function inOrder<T extends { readonly record: CaseRecord }>(earlier: readonly T[]): T[] {
  return earlier.toSorted((a, b) => (numberOf(a.record) ?? 0) - (numberOf(b.record) ?? 0));
}

/** What a version tells otherwise than the one before it, beside that it is another version. */
export function changesSince(record: CaseRecord, earlier: readonly EarlierVersion[]): ChangedFact[] {
  const latest = earlier.at(-1);
  return latest ? compareRecords(latest.record, record).filter(change => !isAboutVersion(change)) : [];
}

/**
 * What there is to say of a report as a later version.
 * @param earlier in order, lowest first
 * @param changes those since the last of them
 */
export function versionFindings(
  record: CaseRecord,
  earlier: readonly EarlierVersion[],
  changes: readonly ChangedFact[],
): Finding[] {
  const latest = earlier.at(-1)?.record;
  return [
    ...told(record),
    ...notGiven(record, earlier),
    ...earlier.flatMap(({ record: old }) => sameCase(record, old)),
    ...(latest ? flow(record, latest, earlier, changes) : []),
  ];
}

/** A change says why, or the record could not be read; by whom and when is asked for here. */
function told({ report: { change } }: CaseRecord): Finding[] {
  if (!change) return [];
  const missing = [
    ...(change.by ? [] : [message('answer.byWhom')]),
    ...(change.at ? [] : [message('answer.when')]),
  ];
  return missing.length === 0
    ? []
    : [finding('correction.change-half-told', 'report.change', { missing: allOf(missing) })];
}

/** What stays behind at the destination. An addendum leaves what came before it alone. */
function notGiven(record: CaseRecord, earlier: readonly EarlierVersion[]): Finding[] {
  if (record.report.status === 'appended') return [];
  const first = earlier[0]?.record;
  // What the first one at hand replaced is superseded already; what it was added to is not.
  if (first && first.report.status !== 'appended') return [];
  const { follows } = reportVersion(first ?? record);
  return follows.length === 0
    ? []
    : [finding('correction.earlier-not-given', 'report.change', { versions: follows.join(', ') })];
}

function sameCase(record: CaseRecord, old: CaseRecord): Finding[] {
  const [expected, found] = [record.case.id, old.case.id];
  if (expected !== found) return [finding('correction.other-case', 'case.id', { expected, found })];
  const number = ({ system, value }: { system: string; value: string }) => JSON.stringify([system, value]);
  const known = new Set(old.patient.identifiers.map(number));
  return record.patient.identifiers.some(identifier => known.has(number(identifier)))
    ? []
    : [finding('correction.other-patient', 'patient.identifiers', {})];
}

const SIGNED = new Set<CaseRecord['report']['status']>(['final', 'amended', 'appended']);

function flow(
  record: CaseRecord,
  latest: CaseRecord,
  earlier: readonly EarlierVersion[],
  changes: readonly ChangedFact[],
): Finding[] {
  const versions = versionsOf([...earlier.map(entry => entry.record), record]);
  const found = versions.at(-1)?.number ?? '';
  const previous = versions.at(-2)?.number ?? '';
  const { status, change } = record.report;
  const was = latest.report.status;
  const of = change?.of;
  const findings: Finding[] = [];
  for (const [n, { number }] of versions.entries()) {
    const before = versions[n - 1]?.number;
    if (before !== undefined && !(Number(number) > Number(before)))
      findings.push(
        finding('correction.version-order', 'report.version', { found: number, previous: before }),
      );
  }
  if (of !== undefined && of !== previous)
    findings.push(finding('correction.of-other-version', 'report.change.of', { found: of, previous }));
  if (was === 'withdrawn')
    findings.push(finding('correction.after-withdrawn', 'report.status', { previous }));
  else if (SIGNED.has(was) && (status === 'final' || status === 'preliminary'))
    findings.push(finding('correction.status-order', 'report.status', { status, previous, was }));
  if (changes.length === 0 && (status === 'amended' || status === 'appended') && found !== previous)
    findings.push(finding('correction.nothing-changed', 'report.change', { status, previous }));
  const otherwise = changes.filter(isOtherwise);
  if (status === 'appended' && otherwise.length > 0) {
    const what = inTurn(otherwise.map(fact => fact.what));
    findings.push(finding('correction.addendum-changes', 'report.status', { what }));
  }
  return findings;
}

/** True when something said before no longer holds: it went, or became another; words that were only added do not. */
function isOtherwise({ kind, words, before, after }: ChangedFact): boolean {
  if (kind === 'added') return false;
  if (kind === 'removed') return true;
  return words
    ? words.some(word => word.kind === 'struck')
    : before !== undefined && !say(after ?? '').startsWith(say(before));
}

/** The number of each version, worked out along the chain. */
function versionsOf(records: readonly CaseRecord[]): ReportVersion[] {
  const found: ReportVersion[] = [];
  for (const record of records) {
    const before = found.map(({ number }) => number);
    found.push(reportVersion(record, before));
  }
  return found;
}

function numberOf(record: CaseRecord): number | undefined {
  const number = Number(reportVersion(record).number);
  return Number.isFinite(number) ? number : undefined;
}
