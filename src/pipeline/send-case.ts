import { type SendOutcome, sendExitCode } from '../delivery/answer/outcome.js';
import type { SecretSource } from '../delivery/auth/secrets.js';
import type { Destination } from '../delivery/destination/destination.js';
import { openSession, type SendDeps, type Session, type Target } from '../delivery/destination/session.js';
import { looking } from '../delivery/held/looking.js';
import { preflight } from '../delivery/held/preflight.js';
import { type PreviewEntry, previewSend } from '../delivery/held/preview.js';
import type { Outbox, OutboxItem } from '../delivery/outbox/outbox.js';
import { type Acceptance, accepting } from '../delivery/patient/accept.js';
import { rightPatient } from '../delivery/patient/right-patient.js';
import type { Accepted } from '../delivery/request/expected.js';
import { misfits } from '../delivery/request/fits.js';
import { readSubmission, type Submission } from '../delivery/request/submission.js';
import { deliver } from '../delivery/send/deliver.js';
import { notASubmission, notSent } from '../delivery/send/once.js';
import { inSpan } from '../delivery/telemetry/traces.js';
import { type Next, whatNext } from '../delivery/worker/next.js';
import { durableExitCode, sendDurably } from '../delivery/worker/send-durably.js';
import type { WorkerDeps } from '../delivery/worker/worker.js';
import { CasetallyError } from '../findings/errors.js';
import { type Finding, stops } from '../findings/finding.js';
import { placed } from '../record/parse.js';
import type { Site } from '../site/site.js';
import type { CheckedCase } from './check.js';
import { destinationsOf, openDestination, siteFor } from './destinations.js';
import { followsAnother, type SentBefore, sentBefore } from './earlier.js';
import { submissionFor } from './in-version.js';
import { besideSubmission, outboxItem, sourceFrom } from './outbox-item.js';
import type { PreparedCase } from './prepare.js';
import { type Receiver, receiverFindings } from './receiver.js';

/** A case to be sent, and how. */
export interface CaseToSend {
  /** With the bytes that it came as, a later version finds this one in the outbox. */
  readonly checked: CheckedCase & { readonly bytes?: Uint8Array };
  readonly site: Site;
  /** A destination of the site or a base address; where the case goes by itself when absent. */
  readonly to?: string | undefined;
  /**
   * ready: prepared for its destinations, which are not asked. look: what would be sent and what it would change, with reads
   * only. direct: sent, and nothing kept. deliver: stored,
   * and what is due is sent. store: stored for all destinations or for none; a worker sends it.
   */
  readonly how: 'ready' | 'look' | 'direct' | 'deliver' | 'store';
  /** True to update what is there whatever its version. */
  readonly overwrite?: boolean | undefined;
  /** Near matches to let pass where it is sent directly; through the outbox they are accepted there. */
  readonly accept?: Acceptance | undefined;
  /** What a destination is named with, for messages; `--to` when absent. */
  readonly flag?: string;
}

/** What sending a case needs from the process around it. */
export interface SendCaseDeps {
  /**
   * Prepares the case under the site as a destination has it; undefined when the record is not whole.
   * @param before what went to the destination of this case before, as far as the outbox has it (see `withSentBefore`).
   */
  readonly prepare: (site: Site, before: readonly SentBefore[]) => Promise<PreparedCase | undefined>;
  readonly secrets: SecretSource;
  readonly process: Omit<WorkerDeps, 'targets' | 'outbox'>;
  /** Opens the outbox when something is to be stored; without one the case is sent directly. */
  readonly outbox: () => Promise<Outbox | undefined>;
  /** The part of the outbox that storing alone needs, where there is no more of it at hand. */
  readonly store?: Pick<Outbox, 'list' | 'put'>;
  /** What a destination asks of resources by profiles of its own; see `openReceiver`. */
  readonly receiver?: (destination: string) => Receiver | undefined;
  /** Called with each result as soon as it is there. */
  readonly onSent?: (sent: SentCase) => void;
}

/** What came of one destination. */
export type SentCase = {
  readonly destination: string;
  /** Those of the case, of its version for the destination and of the sending, with their lines. */
  readonly findings: readonly Finding[];
  /** 0 done, 1 findings, 2 unreadable, 3 refused, 4 not delivered yet or not known. */
  readonly code: 0 | 1 | 2 | 3 | 4;
} & (
  | { readonly kind: 'not-sent' }
  | { readonly kind: 'ready' }
  | { readonly kind: 'look'; readonly submission: Submission; readonly entries: readonly PreviewEntry[] }
  | { readonly kind: 'direct'; readonly outcome: SendOutcome; readonly accepted: readonly Accepted[] }
  | { readonly kind: 'stored'; readonly item: OutboxItem; readonly next?: Next }
);

/** A case in the form that one destination takes. */
interface Written {
  readonly target: Target;
  readonly prepared: PreparedCase | undefined;
  readonly submission: string | undefined;
  readonly findings: readonly Finding[];
}

/**
 * The one way out: finds the destinations of a case, prepares it for each and writes it in the form that each takes,
 * and then looks, sends, or stores and delivers. Nothing goes anywhere before every destination can be used.
 *
 * @returns what came of each destination; or, in `unusable`, what is wrong with the settings of one.
 * @throws CasetallyError 'usage' when a destination must be named.
 */
export async function sendCase(
  toSend: CaseToSend,
  deps: SendCaseDeps,
): Promise<{ readonly sent: readonly SentCase[]; readonly unusable: readonly Finding[] }> {
  const { checked, site, how } = toSend;
  const targets: Target[] = [];
  for (const name of destinationsOf(site, checked.record, toSend.to, toSend.flag)) {
    const { target, findings } = await openDestination(site, name, deps.secrets, deps.process.clock);
    if (!target) return { sent: [], unusable: findings };
    targets.push(target);
  }
  const { record } = checked;
  // A first report needs nothing of what went before it, and a look at it opens no outbox.
  const looks = how !== 'direct' && record && followsAnother(record);
  const outbox = looks ? (deps.store ?? (await deps.outbox())) : undefined;
  const all: Written[] = [];
  const made = new Map<string, PreparedCase | undefined>();
  for (const target of targets) {
    const own = siteFor(site, target.destination.name);
    const before = record ? await sentBefore(record, site, target.destination.name, outbox) : [];
    const key = JSON.stringify([own.references, own.fhir, before.map(({ id }) => id)]);
    if (!made.has(key)) made.set(key, await inSpan('casetally.prepare', {}, () => deps.prepare(own, before)));
    const receiver = deps.receiver?.(target.destination.name);
    all.push(writtenFor(target, made.get(key), checked, receiver));
  }
  const held = all.filter(({ submission }) => submission === undefined);
  const goes = how === 'store' && held.length > 0 ? held : all;
  const sent: SentCase[] = [];
  for (const written of goes) {
    const one = await sendOne(written, toSend, deps);
    sent.push(one);
    deps.onSent?.(one);
  }
  return { sent, unusable: [] };
}

function writtenFor(
  target: Target,
  prepared: PreparedCase | undefined,
  checked: CheckedCase,
  receiver: Receiver | undefined,
): Written {
  const written = prepared && submissionFor(prepared, target.destination);
  const own = prepared ? toBeSent(prepared.findings) : checked.findings;
  // Its profiles are of R4, as our definitions are.
  const asked =
    prepared && receiver && target.destination.fhirVersion === '4.0.1'
      ? receiverFindings(receiver, written?.submission ?? '')
      : [];
  const findings = [...own, ...(written?.findings ?? []), ...asked];
  const goes = prepared && !own.some(stops);
  return { target, prepared, submission: goes ? written?.submission : undefined, findings };
}

/**
 * Findings of a prepared case as they weigh when it is to be sent: a later version whose earlier one is not at hand would
 * leave two current reports of one case.
 */
function toBeSent(findings: readonly Finding[]): Finding[] {
  return findings.map(f => (f.code === 'correction.earlier-not-given' ? { ...f, severity: 'error' } : f));
}

async function sendOne(written: Written, toSend: CaseToSend, deps: SendCaseDeps): Promise<SentCase> {
  const { target, prepared, submission } = written;
  const { checked, how } = toSend;
  const { name: destination } = target.destination;
  const located = (more: readonly Finding[] = []) =>
    placed([...written.findings, ...more], checked.parsed.locate);
  if (!prepared || submission === undefined) {
    const code = checked.unreadable && !prepared ? 2 : 1;
    return { kind: 'not-sent', destination, findings: written.findings, code };
  }
  if (how === 'ready') return { kind: 'ready', destination, findings: located(), code: 0 };
  const text = checked.bytes && Buffer.from(checked.bytes).toString('utf8');
  const item = outboxItem(prepared, submission, destination, toSend.site.namespace, text);
  if (how === 'look') {
    const read = readSubmission(submission, sourceFrom(item), item);
    const session = openSession(target.destination, { ...deps.process, ...target });
    if (!read) return { kind: 'not-sent', destination, findings: notASubmission(session).findings, code: 1 };
    const look = looking(session);
    const seen = [...(await misfits(read, session)), ...(await preflight(read, session, look))];
    const { holding, notes, later } = await rightPatient(read, session, look);
    const entries = await previewSend(read, session);
    const findings = located([...seen, ...holding, ...notes, ...(later?.findings ?? [])]);
    return {
      kind: 'look',
      destination,
      findings,
      code: holding.length > 0 || findings.some(stops) ? 1 : 0,
      submission: read,
      entries,
    };
  }
  const attributes = { 'casetally.destination': destination };
  return inSpan('casetally.send', attributes, async note => {
    const sent = await come();
    note({ 'casetally.exit': sent.code });
    return sent;
  });

  async function come(): Promise<SentCase> {
    if (how === 'store') {
      const store = deps.store ?? (await deps.outbox());
      if (!store) throw new CasetallyError('usage', 'a case that is only to be stored needs an outbox.');
      const put = await store.put(item, deps.process.clock());
      return { kind: 'stored', destination, findings: located(), code: 0, item: put };
    }
    const outbox = how === 'direct' ? undefined : await deps.outbox();
    return outbox ? delivered(outbox) : direct();
  }

  async function direct(): Promise<SentCase> {
    const session = openSession(target.destination, { ...deps.process, ...target });
    const first = await deliverDirectly(item, session);
    const accepted = acceptedNow(first, toSend.accept, deps.process.clock());
    const outcome = accepted.length > 0 ? await deliverDirectly({ ...item, accepted }, session) : first;
    return {
      kind: 'direct',
      destination,
      findings: located(outcome.findings),
      code: sendExitCode(outcome),
      outcome,
      accepted,
    };
  }

  async function delivered(outbox: Outbox): Promise<SentCase> {
    const result = await sendDurably(item, { ...deps.process, outbox, targets: [target] }, toSend.overwrite);
    const code = durableExitCode(result);
    const next = await whatNext(result.item, outbox, deps.process.clock());
    return {
      ...{ kind: 'stored', destination, findings: located(result.findings), code, item: result.item },
      ...(next !== undefined && { next }),
    };
  }
}

/**
 * The near matches that hold a case back now and that a person lets pass, with the two values of each.
 *
 * @throws CasetallyError 'usage' for a field that it is not held back for.
 */
function acceptedNow(
  { state, findings }: SendOutcome,
  accept: Acceptance | undefined,
  at: number,
): readonly Accepted[] {
  if (!accept || state !== 'not-sent') return [];
  return accepting({ named: 'this case', findings }, accept, at);
}

async function deliverDirectly(
  item: Pick<OutboxItem, 'payload' | 'context' | 'accepted'>,
  session: Session,
): Promise<SendOutcome> {
  const submission = readSubmission(item.payload, sourceFrom(item), item);
  return submission ? deliver(submission, session) : notASubmission(session);
}

/**
 * Sends a case that is prepared already to one destination, directly, and settles what can be settled without a person:
 * the last step of `sendCase` by itself. A case with an error is not sent. Never throws for what the network or the
 * server does.
 */
export async function submitCase(
  prepared: PreparedCase,
  destination: Destination,
  deps: SendDeps,
): Promise<SendOutcome> {
  const stopping = toBeSent(prepared.findings).filter(stops);
  if (stopping.length > 0) return notSent(...stopping);
  const { submission, findings } = submissionFor(prepared, destination);
  if (submission === undefined) return notSent(...findings);
  const item = { payload: submission, context: besideSubmission(prepared) };
  const outcome = await deliverDirectly(item, openSession(destination, deps));
  return { ...outcome, findings: [...outcome.findings, ...findings] };
}
