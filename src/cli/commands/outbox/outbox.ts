import type { ItemState, Outbox, OutboxItem } from '../../../delivery/outbox/outbox.js';
import { cannotBe, decideItem } from '../../../delivery/worker/decisions.js';
import { nextRows, whatNext } from '../../../delivery/worker/next.js';
import { CasetallyError } from '../../../findings/errors.js';
import type { OpenedSite } from '../../../pipeline/open-case.js';
import { type ExitCode, exitCodes } from '../../exit.js';
import { type Feed, registerFeed } from '../../feeding.js';
import { jsonText, type Output } from '../../output.js';
import { openOutbox } from '../../process.js';
import { clockText } from '../../terminal/clock.js';
import { filled } from '../../terminal/fill.js';
import { findingsText } from '../../terminal/findings.js';
import { nextText, reasonText } from '../../terminal/item.js';
import { openSite } from '../open-site.js';
import { printReceipt } from '../sent.js';

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

/** The same for work that sends, under a site: what is accepted is taken into its register, where it keeps one. */
export async function withFedOutbox(
  flags: OutboxFlags,
  output: Output,
  work: (outbox: Outbox, site: OpenedSite, feed: Feed) => Promise<ExitCode>,
): Promise<ExitCode> {
  return withOutbox(flags, async outbox => {
    const site = await openSite(flags.site, output);
    if (!site) return exitCodes.usage;
    const feed = registerFeed(site, flags.data, output);
    try {
      return await work(feed.of(outbox), site, feed);
    } finally {
      await feed.close();
    }
  });
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

/** An item by its id, or by as much of its beginning as no other has. @throws CasetallyError 'usage' where there is none such. */
export async function found(outbox: Outbox, id: string): Promise<OutboxItem> {
  const item = await outbox.get(await wholeId(outbox, id));
  if (!item) throw new CasetallyError('usage', `the outbox has no item ${id}: see casetally outbox list.`);
  return item;
}

/** Shorter ones are more likely slips than ids. */
const SHORTEST = 6;

async function wholeId(outbox: Outbox, beginning: string): Promise<string> {
  if (beginning.length < SHORTEST || WHOLE_ID.test(beginning)) return beginning;
  const ids = (await outbox.list({ unreadable: true })).map(({ id }) => id);
  const those = ids.filter(id => id.startsWith(beginning));
  if (those.length > 1 && !those.includes(beginning))
    throw new CasetallyError(
      'usage',
      `${beginning} is the beginning of ${those.length} items: give more of the id (${those.join(', ')}).`,
    );
  return those.length === 1 ? (those[0] ?? beginning) : beginning;
}

const WHOLE_ID = /^[\da-f]{8}(?:-[\da-f]{4}){3}-[\da-f]{12}$/;

/** Shows one item with what was said about it. What a server said may hold patient data. */
export function show(id: string, flags: OutboxFlags, output: Output): Promise<ExitCode> {
  return withOutbox(flags, async outbox => {
    const item = await found(outbox, id);
    const { receipt, parked } = item;
    const now = Date.now();
    const next = await whatNext(item, outbox, now);
    if (flags.json)
      output.out(jsonText({ ...summary(item), ...nextRows(next), parked, accepted: item.accepted, receipt }));
    else {
      const line = (name: string, text: string) =>
        output.out(filled(text, output.columns, name.padEnd(13), ' '.repeat(13)));
      const { reason: _code, unknown, ...rows } = summary(item);
      for (const [name, value] of Object.entries(rows)) line(name, String(value));
      if (unknown) line('arrived', 'not known: the last attempt may have had an effect');
      const reason = receipt ? undefined : reasonText(item);
      if (reason !== undefined) line('reason', reason);
      if (next) line('next', nextText(next, now));
      if (parked) {
        const what = item.state === 'parked' || item.state === 'discarded' ? `${item.state} by` : 'answered';
        const who = what === 'answered' ? '' : `${parked.by}, `;
        line(what, `${who}${clockText(parked.at, now)}`);
        output.out(findingsText(item.id, parked.findings, output));
        if (parked.answer !== undefined)
          output.out(
            filled(
              `The answer in full (${parked.answer.length} characters): casetally outbox show ${item.id} --json`,
              output.columns,
            ),
          );
      }
      for (const { field, by, why, at } of item.accepted ?? [])
        line('accepted', `${field}, by ${by}, ${clockText(at, now)}: ${why}`);
      if (receipt) printReceipt(receipt, output, item.id);
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
    else {
      output.out(filled(`${item.id}: accepted by ${item.receipt.destination}`, output.columns));
      printReceipt(item.receipt, output, item.id);
    }
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
    const whole = await wholeId(outbox, id);
    const item = await found(outbox, whole).catch(async (error: unknown) => {
      const hurt = (await outbox.list({ unreadable: true })).find(one => one.id === whole);
      if (!hurt) throw error;
      return hurt;
    });
    if (!(await decideItem(outbox, item, what, { by, why }, Date.now()))) {
      output.err(`${cannotBe(what, item)}\n`);
      return exitCodes.findings;
    }
    output.out(`${item.id}: ${what === 'park' ? 'parked' : 'discarded'}\n`);
    return exitCodes.ok;
  });
}
