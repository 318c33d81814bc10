import { isDelivered, type SendOutcome } from '../../delivery/answer/outcome.js';
import type { Receipt } from '../../delivery/receipt/receipt.js';
import { nextRows } from '../../delivery/worker/next.js';
import type { SentCase } from '../../pipeline/send-case.js';
import type { Output } from '../output.js';
import { filled, table } from '../terminal/fill.js';
import { listText, ownLines, verdictText } from '../terminal/findings.js';
import { nextText, reasonText } from '../terminal/item.js';

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

/** What is printed about the case as a whole. */
export interface Printed {
  readonly file: string;
  readonly bytes: Uint8Array;
}

/** The same for people: what came of it in a line, what was accepted, and then the findings. */
export function print(sent: SentCase, { file, bytes }: Printed, path: string, output: Output): void {
  const { destination, findings } = sent;
  const line = (verdict: string) => verdictText(file, findings, output, verdict);
  switch (sent.kind) {
    case 'not-sent':
      output.err(line(`nothing was sent to ${destination}`));
      break;
    case 'look':
      output.out(line(`nothing was sent to ${destination}: this is a dry run`));
      printLook(sent, output);
      break;
    case 'ready':
      if (findings.length > 0) output.err(line(`ready for ${destination}`));
      break;
    case 'direct': {
      const delivered = isDelivered(sent.outcome);
      if (delivered) output.out(line(`accepted by ${destination}`));
      else output.err(line(`not delivered to ${destination} (${wordsOf(sent.outcome)})`));
      for (const { field, sent: ours, held, by, why } of sent.accepted)
        output.out(
          filled(`accepted ${field} by ${by}: ${ours} in the record, ${held} there: ${why}`, output.columns),
        );
      if (isDelivered(sent.outcome)) printReceipt(sent.outcome.receipt, output);
      break;
    }
    case 'stored': {
      const { id, state, receipt } = sent.item;
      if (receipt) {
        output.out(line(`accepted by ${destination}`));
        printReceipt(receipt, output, id);
      } else {
        output.err(line(`not delivered to ${destination} yet: ${reasonText(sent.item) ?? state}`));
        const next = sent.next ? nextText(sent.next, Date.now()) : `casetally outbox show ${id}`;
        output.err(filled(`It is stored as ${id} in ${path}.`, output.columns));
        output.err(filled(`Next: ${next}`, output.columns));
      }
    }
  }
  output.err(listText(findings, output, ownLines(output, bytes)));
}

const wordsOf = ({ state, ...outcome }: SendOutcome) =>
  ('verdict' in outcome && reasonText({ lastReason: outcome.verdict?.reason ?? state })) || state;

function printLook({ submission, entries }: Extract<SentCase, { kind: 'look' }>, output: Output): void {
  const { bytes, digest } = submission;
  output.out(
    filled(`Would be sent: ${entries.length} entries, ${bytes} bytes, digest ${digest}`, output.columns),
  );
  const rows = counting(entries.map(({ type, now }) => [type, now]));
  output.out(table([['type', 'there now', 'entries'], ...rows], output.columns));
  for (const { type, differences } of entries)
    for (const { path, kind } of differences)
      output.out(filled(`${type} ${path}: ${kind}`, output.columns, '  ', '    '));
}

/** Each row once, with how often it is there. */
function counting(rows: readonly (readonly string[])[]): string[][] {
  const seen = new Map<string, number>();
  for (const row of rows) seen.set(JSON.stringify(row), (seen.get(JSON.stringify(row)) ?? 0) + 1);
  return rows
    .filter((row, i) => rows.findIndex(other => JSON.stringify(other) === JSON.stringify(row)) === i)
    .map(row => [...row, String(seen.get(JSON.stringify(row)))]);
}

/** The receipt for people: how many of which type, and what the server knows it by. @param item of the outbox that has the ids */
export function printReceipt(receipt: Receipt, output: Output, item?: string): void {
  const { entries, sentAt, requestId } = receipt;
  const created = entries.filter(entry => entry.status === 201).length;
  const there = entries.length - created;
  const types = counting(entries.map(({ type }) => [type])).map(([type, n]) => `${n} ${type}`);
  const lines = [
    `${created} created${there === 0 ? '' : `, ${there} there already or updated`}: ${types.join(', ')}.`,
    `Sent ${sentAt}, request ${requestId}.`,
    ...(item === undefined ? [] : [`Every id: casetally outbox receipt ${item} --json`]),
  ];
  output.out(lines.map(text => filled(text, output.columns)).join(''));
}
