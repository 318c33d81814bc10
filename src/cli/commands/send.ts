import { createHash } from 'node:crypto';
import { deliver } from '../../delivery/deliver.js';
import type { NewItem } from '../../delivery/outbox/outbox.js';
import { isDelivered, type SendOutcome, sendExitCode } from '../../delivery/outcome.js';
import { preflight } from '../../delivery/preflight.js';
import { previewSend } from '../../delivery/preview.js';
import type { Receipt } from '../../delivery/receipt.js';
import { digestOf, readSubmission } from '../../delivery/submission.js';
import { durableExitCode, sendDurably } from '../../delivery/worker/send-durably.js';
import { CasetallyError } from '../../findings/errors.js';
import type { Finding } from '../../findings/finding.js';
import type { PreparedCase } from '../../pipeline/prepare.js';
import { sourceMap, sourcesOf } from '../../pipeline/submit.js';
import { placed } from '../../record/parse.js';
import { type Connection, connect } from '../connect.js';
import { type ExitCode, exitCodes, exitFor } from '../exit.js';
import { openOutbox, workerDeps } from '../open-outbox.js';
import { countLine, findingLines, jsonText, type Output, table } from '../output.js';
import { exitOf, type OpenedCase, openCase, openSite } from './open-case.js';
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
  readonly dryRun?: boolean;
  readonly json?: boolean;
}

/** Prepares, checks and sends one case through the outbox, and prints what the destination accepted. */
export async function send(file: string, flags: SendFlags, output: Output): Promise<ExitCode> {
  const site = await openSite(flags.site, output);
  if (!site) return exitCodes.usage;
  const { connection, findings } = await connect(site.site, flags.to);
  if (!connection) {
    output.err(findingLines(findings, flags.site ?? '--to', output.color));
    return exitCodes.usage;
  }
  const opened = await openCase(file, site);
  const sent = { ...site, site: connection.site };
  const previous = await openPrevious(flags.previous ?? [], sent, output);
  if (!previous) return exitCodes.usage;
  const made = await preparedOf(opened, sent, previous);
  const prepared = made && (await signed(made, sent, flags.sign, 'send'));
  if (!prepared?.sendable) {
    const found = prepared?.findings ?? opened.findings;
    if (flags.json) output.out(jsonText({ state: 'not-sent', findings: found }));
    else
      output.err(
        `${findingLines(found, file, output.color)}\n${file}: ${countLine(found)}. Nothing was sent.\n`,
      );
    return prepared ? exitCodes.findings : exitOf(opened);
  }
  if (flags.dryRun) return dryRun(prepared, opened, connection, flags, output);
  if (flags.direct) return sendDirect(prepared, opened, connection, flags, output);
  return sendStored(prepared, opened, connection, flags, output);
}

/** Through the outbox: durable before anything is sent. Without its optional package the case is sent directly, and that is said. */
async function sendStored(
  prepared: PreparedCase,
  opened: OpenedCase,
  connection: Connection,
  flags: SendFlags,
  output: Output,
): Promise<ExitCode> {
  let store: Awaited<ReturnType<typeof openOutbox>>;
  try {
    store = await openOutbox(flags.data);
  } catch (error) {
    if (!(error instanceof CasetallyError) || error.code !== 'optional-package-missing') throw error;
    output.err(
      `casetally: ${error.message}\nThe case is sent directly; nothing is kept if it does not arrive.\n`,
    );
    return sendDirect(prepared, opened, connection, flags, output);
  }
  try {
    const result = await sendDurably(itemOf(prepared, connection), {
      ...workerDeps(store.outbox),
      targets: [connection.target],
    });
    const { item } = result;
    const findings = placed([...prepared.findings, ...result.findings], opened.parsed.locate);
    if (flags.json)
      output.out(
        jsonText({
          state: item.state,
          item: item.id,
          attempts: item.attempts,
          reason: item.lastReason ?? item.parked?.reason,
          receipt: item.receipt,
          findings,
        }),
      );
    else {
      output.err(findingLines(findings, opened.file, output.color));
      if (item.receipt) printReceipt(opened.file, item.receipt, output);
      else
        output.err(
          `\n${opened.file}: not delivered yet (${item.parked?.reason ?? item.lastReason ?? item.state}). It is stored as ${item.id} in ${store.path}.\n` +
            (item.state === 'parked'
              ? `A person must look: casetally outbox show ${item.id}\n`
              : 'It goes out with: casetally outbox retry\n'),
        );
    }
    return durableExitCode(result);
  } finally {
    await store.outbox.close();
  }
}

/** One item for the outbox. Keys are digests: the patient's number is not written down a second time. */
function itemOf(prepared: PreparedCase, { target, site }: Connection): NewItem {
  const { record, submission } = prepared;
  const first = record.patient.identifiers[0];
  const short = (text: string) => createHash('sha256').update(text, 'utf8').digest('hex').slice(0, 32);
  return {
    destination: target.destination.name,
    caseKey: short(`${site.namespace} ${record.case.id}`),
    patientKey: short(`${first?.system}|${first?.value}`),
    payload: submission,
    digest: digestOf(submission),
    context: sourceMap(prepared),
  };
}

async function sendDirect(
  prepared: PreparedCase,
  opened: OpenedCase,
  { target, deps }: Connection,
  flags: SendFlags,
  output: Output,
): Promise<ExitCode> {
  const outcome: SendOutcome = await deliver(prepared.submission, target.destination, {
    ...deps,
    sourceOf: sourcesOf(prepared),
  });
  const findings = placed([...prepared.findings, ...outcome.findings], opened.parsed.locate);
  if (flags.json) output.out(jsonText({ ...outcome, findings }));
  else {
    output.err(findingLines(findings, opened.file, output.color));
    if (isDelivered(outcome)) printReceipt(opened.file, outcome.receipt, output);
    else output.err(`\n${opened.file}: not delivered (${outcome.state}).\n`);
  }
  return sendExitCode(outcome);
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
async function dryRun(
  prepared: PreparedCase,
  opened: OpenedCase,
  { target, deps }: Connection,
  flags: SendFlags,
  output: Output,
): Promise<ExitCode> {
  const { destination } = target;
  const submission = readSubmission(prepared.submission);
  const missing: Finding[] = submission
    ? await preflight(submission, destination, { ...deps, sourceOf: sourcesOf(prepared) })
    : [];
  const entries = (await previewSend(prepared.submission, destination, deps)) ?? [];
  const findings = placed([...prepared.findings, ...missing], opened.parsed.locate);
  if (flags.json)
    output.out(
      jsonText({
        state: 'dry-run',
        destination: destination.name,
        bytes: submission?.bytes,
        digest: submission?.digest,
        entries,
        findings,
      }),
    );
  else {
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
  return exitFor(findings);
}
