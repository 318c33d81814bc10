import { isDelivered, type SendOutcome, sendExitCode } from '../../delivery/answer/outcome.js';
import { preflight } from '../../delivery/held/preflight.js';
import { previewSend } from '../../delivery/held/preview.js';
import type { Receipt } from '../../delivery/receipt/receipt.js';
import { misfits } from '../../delivery/request/fits.js';
import { readSubmission } from '../../delivery/request/submission.js';
import { deliver } from '../../delivery/send/deliver.js';
import { inSpan } from '../../delivery/telemetry/traces.js';
import { durableExitCode, sendDurably } from '../../delivery/worker/send-durably.js';
import { CasetallyError } from '../../findings/errors.js';
import type { Finding } from '../../findings/finding.js';
import { submissionFor } from '../../pipeline/in-version.js';
import { outboxItem } from '../../pipeline/outbox-item.js';
import type { PreparedCase } from '../../pipeline/prepare.js';
import { sourcesOf } from '../../pipeline/submit.js';
import { placed } from '../../record/parse.js';
import { routesOf } from '../../site/routes.js';
import type { Site } from '../../site/site.js';
import { type Connection, connect } from '../connect.js';
import { type ExitCode, exitCodes, exitFor, worstOf } from '../exit.js';
import { openOutbox, statementsOf, workerDeps } from '../open-outbox.js';
import { countLine, findingLines, jsonText, type Output, table } from '../output.js';
import { exitOf, type OpenedCase, type OpenedSite, openCase, openSite } from './open-case.js';
import { openPrevious } from './open-previous.js';
import { preparedOf } from './prepare.js';
import { signed } from './signed.js';

interface SendFlags {
  readonly to?: string;
  readonly site?: string;
  readonly previous?: readonly string[];
  readonly sign?: string;
  readonly data?: string;
  readonly direct?: boolean;
  readonly overwrite?: boolean;
  readonly dryRun?: boolean;
  readonly json?: boolean;
}

/** What came of one destination. */
interface Sent {
  readonly code: ExitCode;
  /** For `--json`. */
  readonly told: object;
}

/** A case ready for one destination. */
interface Ready extends Connection {
  readonly prepared: PreparedCase;
  /** In the release of FHIR that the destination asks for. */
  readonly submission: string;
  readonly opened: OpenedCase;
}

/**
 * Prepares, checks and sends one case through the outbox, and prints what each destination accepted: the one named,
 * or those that the routes of the site say. The exit code is the worst of them.
 */
export async function send(file: string, flags: SendFlags, output: Output): Promise<ExitCode> {
  const site = await openSite(flags.site, output);
  if (!site) return exitCodes.usage;
  const opened = await openCase(file, site);
  const names = destinationsOf(site.site, opened, flags.to);
  // Every destination must be usable before anything goes to any of them.
  const connections: Connection[] = [];
  for (const name of names) {
    const { connection, findings } = await connect(site.site, name);
    if (!connection) {
      output.err(findingLines(findings, flags.site ?? '--to', output.color));
      return exitCodes.usage;
    }
    connections.push(connection);
  }
  const results: Sent[] = [];
  const made = new Map<string, PreparedCase>();
  for (const connection of connections) {
    const sent = { ...site, site: connection.site };
    const key = JSON.stringify(connection.site.references);
    const prepared = made.get(key) ?? (await preparedFor(opened, sent, flags, output));
    if (prepared === 'usage') return exitCodes.usage;
    if (prepared) made.set(key, prepared);
    results.push(await sendTo(connection, prepared, opened, flags, output));
  }
  const [only, second] = results;
  if (flags.json) output.out(jsonText(second ? results.map(r => r.told) : only?.told));
  return worstOf(results.map(result => result.code));
}

/** The destinations of a case; those of the routes where the site has any and none is named. */
function destinationsOf(site: Site, { record }: OpenedCase, to: string | undefined): (string | undefined)[] {
  if (to !== undefined || site.routes.length === 0 || !record) return [to];
  const names = routesOf(site.routes, record);
  if (names.length > 0) return names;
  throw new CasetallyError(
    'usage',
    `no route of the site configuration takes a ${record.report.status} case of kind '${record.case.kind}': give --to, or add a route.`,
  );
}

async function preparedFor(
  opened: OpenedCase,
  site: OpenedSite,
  flags: SendFlags,
  output: Output,
): Promise<PreparedCase | 'usage' | undefined> {
  return inSpan('casetally.prepare', {}, async () => {
    const previous = await openPrevious(flags.previous ?? [], site, output);
    if (!previous) return 'usage';
    const made = await preparedOf(opened, site, previous);
    return made && signed(made, site, flags.sign, 'send');
  });
}

async function sendTo(
  connection: Connection,
  prepared: PreparedCase | undefined,
  opened: OpenedCase,
  flags: SendFlags,
  output: Output,
): Promise<Sent> {
  const { destination } = connection.target;
  const written = prepared && submissionFor(prepared, destination);
  if (!prepared?.sendable || written?.submission === undefined) {
    const found = [...(prepared?.findings ?? opened.findings), ...(written?.findings ?? [])];
    if (!flags.json)
      output.err(
        `${findingLines(found, opened.file, output.color)}\n${opened.file}: ${countLine(found)}. Nothing was sent.\n`,
      );
    return {
      code: prepared ? exitCodes.findings : exitOf(opened),
      told: { state: 'not-sent', destination: destination.name, findings: found },
    };
  }
  const findings = [...prepared.findings, ...written.findings];
  const { submission } = written;
  const ready: Ready = { ...connection, prepared: { ...prepared, findings }, submission, opened };
  if (flags.dryRun) return dryRun(ready, flags, output);
  const attributes = { 'casetally.destination': destination.name };
  return inSpan('casetally.send', attributes, async note => {
    const sent = await (flags.direct ? sendDirect : sendStored)(ready, flags, output);
    note({ 'casetally.exit': sent.code });
    return sent;
  });
}

/** Through the outbox: durable before anything is sent. Without its optional package the case is sent directly, and that is said. */
async function sendStored(ready: Ready, flags: SendFlags, output: Output): Promise<Sent> {
  let store: Awaited<ReturnType<typeof openOutbox>>;
  try {
    store = await openOutbox(flags.data);
  } catch (error) {
    if (!(error instanceof CasetallyError) || error.code !== 'optional-package-missing') throw error;
    output.err(
      `casetally: ${error.message}\nThe case is sent directly; nothing is kept if it does not arrive.\n`,
    );
    return sendDirect(ready, flags, output);
  }
  const { prepared, submission, opened, target, site } = ready;
  try {
    const worker = { ...workerDeps(store.outbox, flags.data), targets: [target] };
    const stored = outboxItem(prepared, submission, target.destination.name, site.namespace);
    const result = await sendDurably(stored, worker, flags.overwrite);
    const { item } = result;
    const findings = placed([...prepared.findings, ...result.findings], opened.parsed.locate);
    if (!flags.json) {
      output.err(findingLines(findings, opened.file, output.color));
      if (item.receipt) printReceipt(opened.file, item.receipt, output);
      else
        output.err(
          `\n${opened.file}: not delivered to ${item.destination} yet (${item.parked?.reason ?? item.lastReason ?? item.state}). It is stored as ${item.id} in ${store.path}.\n` +
            (item.state === 'parked'
              ? `A person must look: casetally outbox show ${item.id}\n`
              : 'It goes out with: casetally outbox retry\n'),
        );
    }
    return {
      code: durableExitCode(result),
      told: {
        state: item.state,
        destination: item.destination,
        item: item.id,
        attempts: item.attempts,
        reason: item.lastReason ?? item.parked?.reason,
        receipt: item.receipt,
        findings,
      },
    };
  } finally {
    await store.outbox.close();
  }
}

async function sendDirect(ready: Ready, flags: SendFlags, output: Output): Promise<Sent> {
  const { prepared, submission, opened, target, deps } = ready;
  const outcome: SendOutcome = await deliver(submission, target.destination, {
    ...deps,
    statements: statementsOf(flags.data),
    sourceOf: sourcesOf(prepared),
  });
  const findings = placed([...prepared.findings, ...outcome.findings], opened.parsed.locate);
  if (!flags.json) {
    output.err(findingLines(findings, opened.file, output.color));
    if (isDelivered(outcome)) printReceipt(opened.file, outcome.receipt, output);
    else output.err(`\n${opened.file}: not delivered to ${target.destination.name} (${outcome.state}).\n`);
  }
  const { name: destination } = target.destination;
  return { code: sendExitCode(outcome), told: { ...outcome, destination, findings } };
}

/** The receipt for people. */
export function printReceipt(file: string, receipt: Receipt, output: Output): void {
  const created = receipt.entries.filter(entry => entry.status === 201).length;
  output.out(`${file}: accepted at ${receipt.destination}\n`);
  output.out(`Sent ${receipt.sentAt}, request ${receipt.requestId}, digest ${receipt.digest}\n`);
  output.out(`${created} created, ${receipt.entries.length - created} there already or updated\n`);
  const rows = receipt.entries.map(e => [e.type, e.id ?? '?', e.version ?? '?', String(e.status)]);
  output.out(table([['type', 'id', 'version', 'status'], ...rows]));
}

/** Says what would be sent and what that would change, with reads only. */
async function dryRun(ready: Ready, flags: SendFlags, output: Output): Promise<Sent> {
  const { prepared, submission: text, opened, target, deps } = ready;
  const { destination } = target;
  const submission = readSubmission(text);
  const asking = { ...deps, statements: statementsOf(flags.data), sourceOf: sourcesOf(prepared) };
  const missing: Finding[] = submission
    ? [
        ...(await misfits(submission, destination, asking)),
        ...(await preflight(submission, destination, asking)),
      ]
    : [];
  const entries = (await previewSend(text, destination, deps)) ?? [];
  const findings = placed([...prepared.findings, ...missing], opened.parsed.locate);
  if (!flags.json) {
    output.err(findingLines(findings, opened.file, output.color));
    output.out(
      `Would be sent to ${destination.name}: ${entries.length} entries, ${submission?.bytes} bytes, digest ${submission?.digest}\n`,
    );
    output.out(
      table([['type', 'there now', 'held as'], ...entries.map(e => [e.type, e.now, e.held.join(', ')])]),
    );
    for (const entry of entries)
      for (const d of entry.differences) output.out(`  ${entry.type} ${d.path}: ${d.kind}\n`);
    output.out('Dry run: nothing was sent.\n');
  }
  const { bytes, digest } = submission ?? {};
  const told = { state: 'dry-run', destination: destination.name, bytes, digest, entries, findings };
  return { code: exitFor(findings), told };
}
