import { type Finding, finding } from '../../findings/finding.js';
import { type ExactObject, listAt, objectAt, textAt } from '../answer/exact-json.js';
import type { NotDelivered } from '../answer/outcome.js';
import type { Session } from '../destination/session.js';
import { type Found, isPassing, type Looking } from '../held/looking.js';
import type { Held } from '../held/lookup.js';
import { sayState } from '../held/preflight.js';
import type { Reply } from '../http/fhir-client.js';
import { numbersOf, shareNumber } from '../request/expected.js';
import type { Submission } from '../request/submission.js';
import { compareOrders, comparePatients, comparePeriod, compareStatus, type Deviation } from './compare.js';
import { otherCase } from './other-case.js';
import { pathOf } from './paths.js';
import { caseIn, type SentCase } from './sent-case.js';
import { unanswered } from './unanswered.js';
import { isReplacedBy, onlyFound, patientIdIn, pointedAt } from './who.js';

/** What comparing has shown: what holds the case back, what is only to be known, or that it could not be done now. */
export interface Comparison {
  /** With one of these the case is not sent; near matches that nobody accepted are among them. */
  readonly holding: readonly Finding[];
  readonly notes: readonly Finding[];
  readonly later?: NotDelivered;
}

/** The patient of the case at the destination; `held` is absent for one that is not there yet. */
interface Subject {
  readonly known: boolean;
  readonly held?: Held | undefined;
  readonly ours: ExactObject | undefined;
}

/**
 * Compares what a case would be filed under with the record: the patient, the encounter, the order, and whether the case
 * is there already under another patient. With reads only, before anything is written. A withdrawal is held back by no
 * field: a case under the wrong patient must be withdrawn there.
 */
export async function rightPatient(
  submission: Submission,
  session: Session,
  look: Looking,
): Promise<Comparison> {
  const sent = caseIn(submission);
  if (!sent) return { holding: [], notes: [] };
  const said = new Said(submission, session, sent.withdrawn);
  const subject = await comparePatient(submission, sent, look, said);
  if (subject) {
    await compareEncounter(submission, sent, subject, look, said);
    await compareOrder(submission, sent, subject, look, said);
    await compareCase(submission, subject, look, said);
  }
  const { holding, notes, failed } = said;
  return { holding, notes, ...(failed && { later: unanswered(failed, submission, session) }) };
}

/** Gathers what is found on the way. */
class Said {
  readonly holding: Finding[] = [];
  readonly notes: Finding[] = [];
  failed: Reply | undefined;
  readonly destination: string;
  readonly #submission: Submission;
  readonly #withdrawn: boolean;

  constructor(submission: Submission, { destination }: Session, withdrawn: boolean) {
    this.#submission = submission;
    this.destination = destination.name;
    this.#withdrawn = withdrawn;
  }

  /** What was found, or that it could not be asked: for now, or at all. */
  heard(found: Found, type: string, path: string): readonly Held[] | undefined {
    if ('held' in found) return found.held;
    if (isPassing(found.failed)) this.failed ??= found.failed;
    else this.notCompared(type, path, path);
    return undefined;
  }

  notCompared(type: string, what: string, path: string): void {
    this.notes.push(finding('delivery.not-compared', path, { destination: this.destination, type, what }));
  }

  deviations(type: string, address: string, all: readonly Deviation[]): void {
    for (const { field, agreement, sent, held } of all) {
      const path = pathOf(field);
      if (agreement === 'not-compared') {
        this.notCompared(type, field, path);
        continue;
      }
      const params = { destination: this.destination, address, field, sent, held };
      const code = agreement === 'near' ? 'delivery.match-near' : 'delivery.match-differs';
      const mayPass =
        this.#withdrawn ||
        (agreement === 'near' &&
          this.#submission.accepted.some(a => a.field === field && a.sent === sent && a.held === held));
      (mayPass ? this.notes : this.holding).push(
        finding(code, path, params, mayPass ? { severity: 'warning' } : {}),
      );
    }
  }
}

async function comparePatient(
  submission: Submission,
  { procedure, start }: SentCase,
  look: Looking,
  said: Said,
): Promise<Subject | undefined> {
  const at = pointedAt(submission, objectAt(procedure.resource, 'subject'));
  if (!at) return undefined;
  const path = 'patient.identifiers';
  const ours = at.entry?.resource ?? submission.expected.patient;
  const found = said.heard(await at.look(look), 'Patient', path);
  const others: Held[] = [];
  for (const { system, value } of numbersOf(ours).slice(0, 10)) {
    const criteria = { parameter: 'identifier', value: `${system}|${value}` };
    const more = said.heard(await look.search('Patient', criteria), 'Patient', path);
    others.push(...(more ?? []));
  }
  if (!found) return { known: false, ours };
  const [held, second] = found;
  const people = new Map([...found, ...others].map(one => [one.id, one]));
  if (held) for (const [id, one] of people) if (isReplacedBy(one.resource, held.id)) people.delete(id);
  if (second || people.size > 1 || (people.size === 1 && !held)) {
    const addresses = [...people.keys()].map(id => `Patient/${id}`).join(', ');
    const sent = 'numbers of one patient';
    said.deviations('Patient', 'Patient', [
      { field: 'identifiers', agreement: 'differs', sent, held: addresses },
    ]);
    return { known: true, held: second ? undefined : held, ours };
  }
  if (!held) return { known: true, ours };
  const address = `Patient/${held.id}`;
  if (at.entry) said.holding.push(...sayState(said.destination, address, held.resource, path));
  if (ours) said.deviations('Patient', address, comparePatients(ours, held.resource, start));
  else said.notCompared('Patient', 'patient', 'patient');
  return { known: true, held, ours };
}

/** Whether a resource that is there is about the patient of the case. */
async function compareSubject(
  field: string,
  reference: ExactObject | undefined,
  subject: Subject,
  look: Looking,
): Promise<Deviation[]> {
  const id = patientIdIn(reference);
  if (id === undefined || !subject.known) return [{ field, agreement: 'not-compared', sent: '', held: '' }];
  if (id === subject.held?.id) return [];
  // A record under another id may be the same person's, merged or found late.
  const there = onlyFound(await look.read('Patient', id));
  if (shareNumber(there?.resource, subject.ours)) return [];
  const sent = subject.held ? `Patient/${subject.held.id}` : 'a patient who is not there yet';
  return [{ field, agreement: 'differs', sent, held: `Patient/${id}` }];
}

async function compareEncounter(
  submission: Submission,
  { procedure, start }: SentCase,
  subject: Subject,
  look: Looking,
  said: Said,
): Promise<void> {
  const at = pointedAt(submission, objectAt(procedure.resource, 'encounter'));
  const found = at && said.heard(await at.look(look), 'Encounter', 'case.encounter');
  const [held, second] = found ?? [];
  if (!held || second) return;
  const { id, resource } = held;
  said.deviations('Encounter', `Encounter/${id}`, [
    ...(await compareSubject('encounter.subject', objectAt(resource, 'subject'), subject, look)),
    ...compareStatus('encounter', resource),
    ...comparePeriod(resource, start),
  ]);
}

async function compareOrder(
  submission: Submission,
  sent: SentCase,
  subject: Subject,
  look: Looking,
  said: Said,
): Promise<void> {
  for (const reference of listAt(sent.procedure.resource, 'basedOn')) {
    const at = pointedAt(submission, objectAt({ reference }, 'reference'));
    // What was planned is of the case itself.
    if (at?.type !== 'ServiceRequest') continue;
    if (at.entry && textAt(at.entry.resource, 'intent') !== 'order') continue;
    const found = said.heard(await at.look(look), 'ServiceRequest', 'case.order');
    const [held, second] = found ?? [];
    if (!held || second) continue;
    const { id, resource } = held;
    const ours = at.entry?.resource ?? submission.expected.order;
    said.deviations('ServiceRequest', `ServiceRequest/${id}`, [
      ...(await compareSubject('order.subject', objectAt(resource, 'subject'), subject, look)),
      ...compareStatus('order', resource),
      ...compareOrders(ours, resource),
      ...(await otherCase(submission, sent, id, look)),
    ]);
  }
}

/** Whether the case, or its document, is there already under another patient. */
async function compareCase(
  submission: Submission,
  subject: Subject,
  look: Looking,
  said: Said,
): Promise<void> {
  const own = caseIn(submission)?.procedure;
  const entries = submission.entries.filter(e => e.index === own?.index || e.type === 'Composition');
  for (const { type, criteria } of entries) {
    if (!criteria) continue;
    const found = said.heard(await look.search(type, criteria), type, 'case.id');
    for (const { id, resource } of found ?? []) {
      const [other] = await compareSubject('case', objectAt(resource, 'subject'), subject, look);
      if (other?.agreement !== 'differs') continue;
      const params = { destination: said.destination, address: `${type}/${id}`, patient: other.held };
      said.holding.push(finding('delivery.case-of-another-patient', 'case.id', params));
      return;
    }
  }
}
