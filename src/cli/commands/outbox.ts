import type { ItemState, Outbox, OutboxItem } from '../../delivery/outbox/outbox.js';
import { cannotBe, decideItem } from '../../delivery/worker/decisions.js';
import { nextRows, whatNext } from '../../delivery/worker/next.js';
import { CasetallyError } from '../../findings/errors.js';
import { say } from '../../findings/say.js';
import { type ExitCode, exitCodes } from '../exit.js';
import { findingLines, jsonText, type Output, table } from '../output.js';
import { openOutbox } from '../process.js';
import { printReceipt } from './sent.js';

export interface OutboxFlags {
  readonly data?: string;
  readonly site?: string;
  readonly json?: boolean;
  readonly state?: ItemState;
  readonly why?: string;
  readonly by?: string;
  readonly accept?: readonly string[];
  readonly overwrite?: boolean;
  readonly now?: boolean;
}

type Work = (outbox: Outbox, path: string) => Promise<ExitCode>;

/** Opens the outbox for a piece of work, and closes it whatever comes of that. */
export async function withOutbox(flags: OutboxFlags, work: Work, anyKeys = false): Promise<ExitCode> {
  const { outbox, path } = await openOutbox(flags.data, anyKeys);
  try {
    return await work(outbox, path);
  } finally {
    await outbox.close();
  }
}

const when = (epoch: number) => new Date(epoch).toISOString();

/** What may be shown of an item without opening the case: no payload, nothing about the patient. */
export const summary = (item: OutboxItem) => ({
  id: item.id,
  destination: item.destination,
  state: item.state,
  created: when(item.createdAt),
  attempts: item.attempts,
  unknown: item.unknownSince !== undefined,
  reason: item.parked?.reason ?? item.lastReason,
  digest: item.digest,
  ...(item.unreadable && { unreadable: true }),
});

/** Lists items, newest last. */
export function list(flags: OutboxFlags, output: Output): Promise<ExitCode> {
  return withOutbox(flags, async (outbox, path) => {
    const items = await outbox.list({ unreadable: true, ...(flags.state && { states: [flags.state] }) });
    const rows = items.map(summary);
    if (flags.json) {
      const now = Date.now();
      const next = await Promise.all(items.map(item => whatNext(item, outbox, now)));
      output.out(jsonText(rows.map((row, i) => ({ ...row, ...nextRows(next[i]) }))));
    } else if (rows.length === 0) output.out(`The outbox ${path} has nothing to show.\n`);
    else
      output.out(
        table([
          ['id', 'destination', 'state', 'created', 'tries', 'reason'],
          ...rows.map(r => [
            r.id,
            r.destination,
            r.unknown ? `${r.state}, outcome unknown` : r.state,
            r.created,
            String(r.attempts),
            r.reason ?? '',
          ]),
        ]),
      );
    return exitCodes.ok;
  });
}

/** An item by its id. @throws CasetallyError 'usage' where there is none. */
export async function found(outbox: Outbox, id: string): Promise<OutboxItem> {
  const item = await outbox.get(id);
  if (!item) throw new CasetallyError('usage', `the outbox has no item ${id}: see casetally outbox list.`);
  return item;
}

/** Shows one item with what was said about it. What a server said may hold patient data. */
export function show(id: string, flags: OutboxFlags, output: Output): Promise<ExitCode> {
  return withOutbox(flags, async outbox => {
    const item = await found(outbox, id);
    const { receipt, parked } = item;
    const next = await whatNext(item, outbox, Date.now());
    if (flags.json)
      output.out(jsonText({ ...summary(item), ...nextRows(next), parked, accepted: item.accepted, receipt }));
    else {
      for (const [name, value] of Object.entries(summary(item)))
        if (value !== undefined) output.out(`${name.padEnd(12)} ${value}\n`);
      if (next) output.out(`next         ${say(next.message)}\n`);
      if (parked) {
        const what = item.state === 'parked' || item.state === 'discarded' ? `${item.state} by` : 'answered';
        const who = what === 'answered' ? '' : `${parked.by}, `;
        output.out(`${what.padEnd(12)} ${who}${when(parked.at)}\n`);
        output.out(findingLines(parked.findings, id, output.color));
        if (parked.answer !== undefined)
          output.out(
            `The answer in full (${parked.answer.length} characters): casetally outbox show ${id} --json\n`,
          );
      }
      for (const { field, by, why, at } of item.accepted ?? [])
        output.out(`accepted     ${field}, by ${by}, ${when(at)}: ${why}\n`);
      if (receipt) printReceipt(id, receipt, output);
    }
    return exitCodes.ok;
  });
}

/** The receipt of a delivered item. */
export function receipt(id: string, flags: OutboxFlags, output: Output): Promise<ExitCode> {
  return withOutbox(flags, async outbox => {
    const item = await found(outbox, id);
    if (!item.receipt) {
      output.err(`${id} has no receipt: it is ${item.state}.\n`);
      return exitCodes.findings;
    }
    if (flags.json) output.out(jsonText(item.receipt));
    else printReceipt(id, item.receipt, output);
    return exitCodes.ok;
  });
}

/** The submission of an item, byte for byte. */
export function exportItem(id: string, flags: OutboxFlags, output: Output): Promise<ExitCode> {
  return withOutbox(flags, async outbox => {
    output.out((await found(outbox, id)).payload);
    return exitCodes.ok;
  });
}

/** Takes an item out of sending, for a stated reason; nothing is lost. */
export function park(id: string, flags: OutboxFlags, output: Output): Promise<ExitCode> {
  return decide(id, 'park', flags, output);
}

/** Decides that an item is never sent, for a stated reason. It stays in the outbox as a record of that. */
export function discard(id: string, flags: OutboxFlags, output: Output): Promise<ExitCode> {
  return decide(id, 'discard', flags, output);
}

function decide(id: string, what: 'park' | 'discard', flags: OutboxFlags, output: Output): Promise<ExitCode> {
  const { why, by } = flags;
  if (!why || !by)
    throw new CasetallyError('usage', `to ${what} an item say --why and --by: both are kept with it.`);
  return withOutbox(flags, async outbox => {
    // One that cannot be opened can be put aside all the same.
    const item = await found(outbox, id).catch(async (error: unknown) => {
      const hurt = (await outbox.list({ unreadable: true })).find(one => one.id === id);
      if (!hurt) throw error;
      return hurt;
    });
    if (!(await decideItem(outbox, item, what, { by, why }, Date.now()))) {
      output.err(`${cannotBe(what, item)}\n`);
      return exitCodes.findings;
    }
    output.out(`${id}: ${what === 'park' ? 'parked' : 'discarded'}\n`);
    return exitCodes.ok;
  });
}
