import { parseDocument } from 'yaml';
import { objectAt, parseExact, textAt, withEntries } from '../delivery/answer/exact-json.js';
import { reportVersion } from '../fhir/resources/version.js';
import { CasetallyError } from '../findings/errors.js';
import type { CaseRecord } from '../record/schema/record.js';
import type { PreparedCase } from './prepare.js';

/** Why a case is moved to another patient, who says so, and when. */
export interface Move {
  /** Key of a member of the team of the case that is withdrawn. */
  readonly by: string;
  /** ISO date and time. */
  readonly at: string;
  readonly why: string;
}

/**
 * Looks whether one case can take the place of another under another patient.
 *
 * @throws CasetallyError 'usage' when it cannot; it names case numbers and nothing of the patients.
 */
export function checkMove(old: CaseRecord, now: CaseRecord, { by }: Pick<Move, 'by'>): void {
  const no = (what: string) => new CasetallyError('usage', what);
  if (old.case.id === now.case.id)
    throw no(
      `both records are of case ${old.case.id}: the new one needs a case number of its own, for what is at the destination follows from it.`,
    );
  const number = ({ system, value }: { system: string; value: string }) => JSON.stringify([system, value]);
  const known = new Set(old.patient.identifiers.map(number));
  if (now.patient.identifiers.some(identifier => known.has(number(identifier))))
    throw no(
      'both records name the same patient number: what is wrong in a report of one patient is corrected by a new version, with casetally send.',
    );
  if (old.report.status === 'withdrawn') throw no('the old case is withdrawn already: send the new one.');
  if (now.report.change || now.report.status === 'withdrawn')
    throw no('the new case is a first report: it has no report.change and is not withdrawn.');
  if (!old.team.some(({ key }) => key === by)) {
    const keys = old.team.map(({ key }) => key).join(', ');
    throw no(`--by names who withdraws the old case by a key of its team: ${keys}.`);
  }
}

/** The text of a record as its next version, which withdraws it and says under which number the case goes on. */
export function withdrawalText(
  text: string,
  old: CaseRecord,
  now: CaseRecord,
  { by, at, why }: Move,
): string {
  const { number } = reportVersion(old);
  const document = parseDocument(text);
  document.setIn(['report', 'status'], 'withdrawn');
  document.setIn(['report', 'version'], Number(number) + 1);
  document.setIn(['report', 'signedAt'], at);
  const change = { of: number, by, at, why: `${why}. The case is reported as ${now.case.id}` };
  document.setIn(['report', 'change'], document.createNode(change));
  return document.toString({ lineWidth: 0 });
}

/** A prepared case whose account of origin names the case that it stands for. */
export function standingFor(prepared: PreparedCase, old: CaseRecord): PreparedCase {
  const { record, resources, submission } = prepared;
  const procedure = resources.entries.find(({ role }) => role === 'procedure')?.resource;
  const numbers = procedure?.resourceType === 'Procedure' ? (procedure.identifier ?? []) : [];
  const system = numbers.find(({ value }) => value === record.case.id)?.system;
  const entity = {
    role: 'revision',
    what: {
      identifier: { ...(system !== undefined && { system }), value: old.case.id },
      display: `Case ${old.case.id}, which was withdrawn: it was reported under another patient`,
    },
  };
  const text = withEntries(parseExact(submission), item => {
    const resource = objectAt(item, 'resource');
    if (!resource || textAt(resource, 'resourceType') !== 'Provenance') return item;
    const before = resource['entity'];
    return { ...item, resource: { ...resource, entity: [...(Array.isArray(before) ? before : []), entity] } };
  });
  return { ...prepared, submission: `${text}\n` };
}
