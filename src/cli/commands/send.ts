import { isDelivered, type SendOutcome, sendExitCode } from '../../delivery/outcome.js';
import { preflight } from '../../delivery/preflight.js';
import { readSubmission } from '../../delivery/submission.js';
import type { PreparedCase } from '../../pipeline/prepare.js';
import { sourcesOf, submitCase } from '../../pipeline/submit.js';
import { placed } from '../../record/parse.js';
import { type Connection, connect } from '../connect.js';
import { type ExitCode, exitCodes, exitFor } from '../exit.js';
import { countLine, findingLines, jsonText, type Output, table } from '../output.js';
import { exitOf, type OpenedCase, openCase, openSite } from './open-case.js';
import { preparedOf } from './prepare.js';

interface SendFlags {
  readonly to?: string;
  readonly site?: string;
  readonly dryRun?: boolean;
  readonly json?: boolean;
}

/** Prepares, checks and sends one case, and prints what the destination accepted. */
export async function send(file: string, flags: SendFlags, output: Output): Promise<ExitCode> {
  const site = await openSite(flags.site, output);
  if (!site) return exitCodes.usage;
  const { connection, findings } = connect(site.site, flags.to);
  if (!connection) {
    output.err(findingLines(findings, flags.site ?? '--to', output.color));
    return exitCodes.usage;
  }
  const opened = await openCase(file, site);
  const prepared = preparedOf(opened, { ...site, site: connection.site });
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
  const outcome = await submitCase(prepared, connection.destination, connection.deps);
  printOutcome(outcome, prepared, opened, flags, output);
  return sendExitCode(outcome);
}

function printOutcome(
  outcome: SendOutcome,
  prepared: PreparedCase,
  opened: OpenedCase,
  flags: SendFlags,
  output: Output,
): void {
  const findings = placed([...prepared.findings, ...outcome.findings], opened.parsed.locate);
  if (flags.json) {
    output.out(jsonText({ ...outcome, findings }));
    return;
  }
  output.err(findingLines(findings, opened.file, output.color));
  if (!isDelivered(outcome)) {
    output.err(`\n${opened.file}: not delivered (${outcome.state}).\n`);
    return;
  }
  const { receipt } = outcome;
  const created = receipt.entries.filter(entry => entry.status === 201).length;
  output.out(
    `${opened.file}: ${outcome.state === 'delivered' ? 'accepted' : 'was there already'} at ${receipt.destination}\n`,
  );
  output.out(`Sent ${receipt.sentAt}, request ${receipt.requestId}, digest ${receipt.digest}\n`);
  output.out(`${created} created, ${receipt.entries.length - created} there already or updated\n`);
  output.out(
    table([
      ['type', 'id', 'version', 'status'],
      ...receipt.entries.map(e => [e.type, e.id ?? '?', e.version ?? '?', String(e.status)]),
    ]),
  );
}

/** Says what would be sent, after looking up with reads only what the case refers to. */
async function dryRun(
  prepared: PreparedCase,
  opened: OpenedCase,
  { destination, deps }: Connection,
  flags: SendFlags,
  output: Output,
): Promise<ExitCode> {
  const submission = readSubmission(prepared.submission);
  const entries = (submission?.entries ?? []).map(({ method, url, type }) => ({ method, url, type }));
  const missing = submission
    ? await preflight(submission, destination, { ...deps, sourceOf: sourcesOf(prepared) })
    : [];
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
    output.out(table([['request', 'type'], ...entries.map(e => [`${e.method} ${e.url}`, e.type])]));
    output.out('Dry run: nothing was sent.\n');
  }
  return exitFor(findings);
}
