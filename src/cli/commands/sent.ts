import { isDelivered } from '../../delivery/answer/outcome.js';
import type { Receipt } from '../../delivery/receipt/receipt.js';
import { nextRows } from '../../delivery/worker/next.js';
import { say } from '../../findings/say.js';
import type { SentCase } from '../../pipeline/send-case.js';
import { countLine, findingLines, type Output, table } from '../output.js';

/** What came of one destination, for `--json`. */
export function told(sent: SentCase): object {
  const { destination, findings } = sent;
  switch (sent.kind) {
    case 'not-sent':
      return { state: 'not-sent', destination, findings };
    case 'look': {
      const { bytes, digest } = sent.submission;
      return { state: 'dry-run', destination, bytes, digest, entries: sent.entries, findings };
    }
    case 'ready':
      return { state: 'ready', destination, findings };
    case 'direct':
      return { ...sent.outcome, destination, accepted: sent.accepted, findings };
    case 'stored': {
      const { id, state, attempts, lastReason, parked, receipt } = sent.item;
      const reason = lastReason ?? parked?.reason;
      return { state, destination, item: id, attempts, reason, ...nextRows(sent.next), receipt, findings };
    }
  }
}

/** The same for people. */
export function print(sent: SentCase, file: string, path: string, output: Output): void {
  const { destination, findings } = sent;
  output.err(findingLines(findings, file, output.color));
  switch (sent.kind) {
    case 'not-sent':
      output.err(`\n${file}: ${countLine(findings)}. Nothing was sent.\n`);
      break;
    case 'look':
      printLook(sent, output);
      break;
    case 'ready':
      break;
    case 'direct':
      for (const { field, sent: ours, held, by, why } of sent.accepted)
        output.out(`accepted ${field} by ${by}: ${ours} in the record, ${held} there: ${why}\n`);
      if (isDelivered(sent.outcome)) printReceipt(file, sent.outcome.receipt, output);
      else output.err(`\n${file}: not delivered to ${destination} (${sent.outcome.state}).\n`);
      break;
    case 'stored': {
      const { id, state, parked, lastReason, receipt } = sent.item;
      if (receipt) printReceipt(file, receipt, output);
      else
        output.err(
          `\n${file}: not delivered to ${destination} yet (${parked?.reason ?? lastReason ?? state}). It is stored as ${id} in ${path}.\n` +
            `Next: ${sent.next ? say(sent.next.message) : `casetally outbox show ${id}`}\n`,
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
