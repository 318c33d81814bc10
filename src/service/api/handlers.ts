import type { Outbox, OutboxItem } from '../../delivery/outbox/outbox.js';
import { CasetallyError } from '../../findings/errors.js';
import { type Finding, stops } from '../../findings/finding.js';
import { type CheckedCase, checkedRows, tallyRows } from '../../pipeline/check.js';
import type { PreparedCase } from '../../pipeline/prepare.js';
import type { EarlierVersion } from '../../pipeline/versions.js';
import { caseRecordJsonSchema } from '../../record/json-schema.js';
import { type Reply, refusal, reply } from './reply.js';
import type { SentCase } from './sent-case.js';

/** What came of taking a case in: an item for each destination, or what was found against it. */
export type Accepted =
  | { readonly items: readonly OutboxItem[]; readonly findings: readonly Finding[] }
  | { readonly items?: undefined; readonly findings: readonly Finding[] };

type Versions = readonly EarlierVersion[];

/** Earlier versions, or why one of them cannot be taken. */
export type Earlier =
  | { readonly versions: Versions }
  | { readonly versions?: undefined; readonly findings: readonly Finding[] };

/** What the handlers need; the edge gives it. */
export interface ServicePorts {
  check(record: Uint8Array): Promise<CheckedCase>;
  /** Reads earlier versions; what stands against one is given in place of all. */
  earlier(records: readonly Uint8Array[]): Promise<Earlier>;
  /** Undefined when the record is not whole. */
  prepare(checked: CheckedCase, sent: SentCase, earlier: Versions): Promise<PreparedCase | undefined>;
  /** Writes the case down for its destinations; durable when fulfilled. */
  accept(checked: CheckedCase, sent: SentCase, earlier: Versions, to: string | undefined): Promise<Accepted>;
  /** Names of the destinations that the site has. */
  readonly destinations: readonly string[];
  /** Those that a case goes to when the request names none; empty when it must name one. */
  goesTo(checked: CheckedCase): readonly string[];
  readonly outbox: Pick<Outbox, 'get' | 'depths'>;
}

/** POST /cases/check: whether the record is whole, every finding, the device tally, what was worked out. */
export async function checkCaseHandler(sent: SentCase, ports: ServicePorts): Promise<Reply> {
  const checked = await ports.check(sent.record);
  if (checked.unreadable) return unreadable(checked);
  return reply(200, { whole: checked.record !== undefined, ...checkedRows(checked) });
}

/** POST /cases/prepare: the same findings with those of conformance, the document, the report for each reader, the timeline, where it goes. */
export async function prepareCaseHandler(sent: SentCase, ports: ServicePorts): Promise<Reply> {
  const checked = await ports.check(sent.record);
  if (checked.unreadable) return unreadable(checked);
  const earlier = await ports.earlier(sent.previous);
  if (!earlier.versions) return earlierNotWhole(earlier.findings);
  const prepared = await ports.prepare(checked, sent, earlier.versions);
  if (!prepared) return notWhole(checked.findings);
  const { sendable, findings, document, submission } = prepared;
  const reports = Object.fromEntries(
    Object.entries(prepared.reports).map(([audience, { html, text }]) => [audience, { html, text }]),
  );
  const goesTo = ports.goesTo(checked);
  const { timeline } = prepared;
  return reply(
    200,
    { sendable, findings, tally: tallyRows(checked), timeline, goesTo, reports },
    { document, submission },
  );
}

/** POST /cases: takes a case into the outbox. 202 says that it is durable, not that it has arrived. */
export async function acceptCaseHandler(
  sent: SentCase,
  to: string | undefined,
  ports: ServicePorts,
): Promise<Reply> {
  const checked = await ports.check(sent.record);
  if (checked.unreadable) return unreadable(checked);
  if (!checked.record) return notWhole(checked.findings);
  const earlier = await ports.earlier(sent.previous);
  if (!earlier.versions) return earlierNotWhole(earlier.findings);
  let accepted: Accepted;
  try {
    accepted = await ports.accept(checked, sent, earlier.versions, to);
  } catch (error) {
    if (error instanceof CasetallyError && error.code === 'usage')
      return refusal(400, 'invalid', error.message);
    throw error;
  }
  const { items, findings } = accepted;
  if (!items) return refusal(422, 'invalid', 'The case was not taken in: see the findings.', findings);
  const [first] = items;
  const location: Record<string, string> = first ? { location: `/outbox/${first.id}` } : {};
  return { ...reply(202, { items: items.map(shown), findings }), headers: location };
}

/** GET /outbox/:id: where an item stands, with its receipt; never the case itself. */
export async function outboxItemHandler(id: string, ports: ServicePorts): Promise<Reply> {
  const item = await ports.outbox.get(id);
  if (!item) return refusal(404, 'not-found', 'The outbox has no such item.');
  const { parked, receipt } = item;
  return reply(200, { ...shown(item), ...(parked && { parked }), ...(receipt && { receipt }) });
}

/** GET /destinations: names alone; an address may hold what is nobody's business. */
export function destinationsHandler({ destinations }: ServicePorts): Reply {
  return reply(200, { destinations: destinations.map(name => ({ name })) });
}

/** GET /schema: the JSON Schema of the case record. */
export function schemaHandler(): Reply {
  return { status: 200, body: JSON.stringify(caseRecordJsonSchema()) };
}

/** GET /healthz: 200 when the outbox answers. Nothing in it is about patients. */
export async function healthHandler(ports: ServicePorts): Promise<Reply> {
  try {
    await ports.outbox.depths();
    return reply(200, { status: 'ok' });
  } catch {
    return reply(503, { status: 'outbox unavailable' });
  }
}

const shown = (item: OutboxItem) => ({
  id: item.id,
  destination: item.destination,
  state: item.state,
  created: new Date(item.createdAt).toISOString(),
  attempts: item.attempts,
  outcomeUnknown: item.unknownSince !== undefined,
  reason: item.parked?.reason ?? item.lastReason,
  digest: item.digest,
});

function unreadable({ findings }: CheckedCase): Reply {
  return refusal(400, 'structure', 'This is not a case record that can be read.', findings);
}

function notWhole(findings: readonly Finding[]): Reply {
  return refusal(422, 'invalid', 'The record must be readable as a whole first.', findings.filter(stops));
}

function earlierNotWhole(findings: readonly Finding[]): Reply {
  return refusal(
    422,
    'invalid',
    'An earlier version that came with the case must be readable as a whole first: see the findings.',
    findings.filter(stops),
  );
}
