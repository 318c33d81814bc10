import { isDelivered } from '../../delivery/answer/outcome.js';
import type { Receipt } from '../../delivery/receipt/receipt.js';
import { CasetallyError } from '../../findings/errors.js';
import { type SentCase, sendCase } from '../../pipeline/send-case.js';
import { type ExitCode, exitCodes, worstOf } from '../exit.js';
import { countLine, findingLines, jsonText, type Output, table } from '../output.js';
import { openOutbox, processDeps, secrets } from '../process.js';
import { openCase, openPrevious, openSite, preparedOf, signed } from './open-case.js';

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

/**
 * Prepares, checks and sends one case through the outbox, and prints what each destination accepted: the one named,
 * or those that the routes of the site say. The exit code is the worst of them.
 */
export async function send(file: string, flags: SendFlags, output: Output): Promise<ExitCode> {
  const site = await openSite(flags.site, output);
  if (!site) return exitCodes.usage;
  const opened = await openCase(file, site);
  const previous = await openPrevious(flags.previous ?? [], site, output);
  if (!previous) return exitCodes.usage;
  let store: Awaited<ReturnType<typeof openOutbox>> | undefined;
  const { to, overwrite, json } = flags;
  const how = flags.dryRun ? 'look' : flags.direct ? 'direct' : 'deliver';
  try {
    const { sent, unusable } = await sendCase(
      { checked: opened, site: site.site, to, how, overwrite },
      {
        prepare: async (own, before) => {
          const made = await preparedOf(opened, { ...site, site: own }, previous, before);
          return made && signed(made, { ...site, site: own }, flags.sign, 'send');
        },
        secrets,
        process: processDeps(flags.data),
        outbox: async () => {
          store ??= await openStore(flags.data, output);
          return store?.outbox;
        },
        onSent: one => json || print(one, file, store?.path ?? '', output),
      },
    );
    if (unusable.length > 0) {
      output.err(findingLines(unusable, flags.site ?? '--to', output.color));
      return exitCodes.usage;
    }
    if (json) output.out(jsonText(sent.length > 1 ? sent.map(told) : sent.map(told)[0]));
    return worstOf(sent.map(({ code }) => code));
  } finally {
    await store?.outbox.close();
  }
}

/** The outbox; undefined, and that is said, without its optional package. */
async function openStore(
  data: string | undefined,
  output: Output,
): Promise<Awaited<ReturnType<typeof openOutbox>> | undefined> {
  try {
    return await openOutbox(data);
  } catch (error) {
    if (!(error instanceof CasetallyError) || error.code !== 'optional-package-missing') throw error;
    output.err(
      `casetally: ${error.message}\nThe case is sent directly; nothing is kept if it does not arrive.\n`,
    );
    return undefined;
  }
}

/** What came of one destination, for `--json`. */
function told(sent: SentCase): object {
  const { destination, findings } = sent;
  switch (sent.kind) {
    case 'not-sent':
      return { state: 'not-sent', destination, findings };
    case 'look': {
      const { bytes, digest } = sent.submission;
      return { state: 'dry-run', destination, bytes, digest, entries: sent.entries, findings };
    }
    case 'direct':
      return { ...sent.outcome, destination, findings };
    case 'stored': {
      const { id, state, attempts, lastReason, parked, receipt } = sent.item;
      const reason = lastReason ?? parked?.reason;
      return { state, destination, item: id, attempts, reason, receipt, findings };
    }
  }
}

/** The same for people. */
function print(sent: SentCase, file: string, path: string, output: Output): void {
  const { destination, findings } = sent;
  output.err(findingLines(findings, file, output.color));
  switch (sent.kind) {
    case 'not-sent':
      output.err(`\n${file}: ${countLine(findings)}. Nothing was sent.\n`);
      break;
    case 'look':
      printLook(sent, output);
      break;
    case 'direct':
      if (isDelivered(sent.outcome)) printReceipt(file, sent.outcome.receipt, output);
      else output.err(`\n${file}: not delivered to ${destination} (${sent.outcome.state}).\n`);
      break;
    case 'stored': {
      const { id, state, parked, lastReason, receipt } = sent.item;
      if (receipt) printReceipt(file, receipt, output);
      else
        output.err(
          `\n${file}: not delivered to ${destination} yet (${parked?.reason ?? lastReason ?? state}). It is stored as ${id} in ${path}.\n` +
            (state === 'parked'
              ? `A person must look: casetally outbox show ${id}\n`
              : 'It goes out with: casetally outbox retry\n'),
        );
    }
  }
}

function printLook(
  { destination, submission, entries }: Extract<SentCase, { kind: 'look' }>,
  output: Output,
): void {
  const { bytes, digest } = submission;
  output.out(
    `Would be sent to ${destination}: ${entries.length} entries, ${bytes} bytes, digest ${digest}\n`,
  );
  const rows = entries.map(e => [e.type, e.now, e.held.join(', ')]);
  output.out(table([['type', 'there now', 'held as'], ...rows]));
  for (const { type, differences } of entries)
    for (const { path, kind } of differences) output.out(`  ${type} ${path}: ${kind}\n`);
  output.out('Dry run: nothing was sent.\n');
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
