import type { Outbox, OutboxItem } from '../../../delivery/outbox/outbox.js';
import { type Choice, makeDue, reopen } from '../../../delivery/worker/decisions.js';
import { clockTime, namedTime, nextRows, serverAsked, whatNext } from '../../../delivery/worker/next.js';
import { drain } from '../../../delivery/worker/worker.js';
import { CasetallyError } from '../../../findings/errors.js';
import { say } from '../../../findings/say.js';
import { type ExitCode, exitCodes } from '../../exit.js';
import { counted, jsonText, type Output } from '../../output.js';
import { processDeps } from '../../process.js';
import { filled } from '../../terminal/fill.js';
import { nextText, reasonText } from '../../terminal/item.js';
import { openTargets } from '../open-destination.js';
import { found, type OutboxFlags, summary, withFedOutbox } from './outbox.js';

/** A server that asks for longer than this is left to the worker. */
const LONGEST_WAIT_MS = 15 * 60_000;
/** How often a time that a server asked for is waited for. */
const MAX_WAITS = 5;

/**
 * Makes items due now and sends what is due: the one named, or all that wait or are parked. A time that a server asked for
 * is kept: on a terminal it is waited for. 0 when nothing is left.
 *
 * @param wait waits some milliseconds; absent where nobody sits at a terminal.
 */
export function retry(
  id: string | undefined,
  flags: OutboxFlags,
  output: Output,
  wait?: (ms: number) => Promise<void>,
): Promise<ExitCode> {
  return withFedOutbox(flags, output, async (outbox, site, feed) => {
    const choice = choiceOf(id, flags);
    const open =
      id === undefined
        ? await outbox.list({ states: ['waiting', 'parked', 'sending'] })
        : [await found(outbox, id)];
    for (const destination of new Set(open.map(item => item.destination)))
      await openAgain(destination, outbox, flags.now === true);
    for (const item of open) await makeDue(outbox, item, Date.now(), choice);
    const process = { ...processDeps(flags.data), alsoWrote: feed.alsoWrote };
    const names = open.map(item => item.destination);
    const targets = await openTargets(site, names, flags, process, output);
    let after: OutboxItem[] = [];
    for (let waits = 0; ; waits += 1) {
      output.progress?.(`Sending ${counted(open.length, 'item', 'items')}`);
      await drain({ ...process, outbox, targets });
      after = await Promise.all(open.map(item => found(outbox, item.id)));
      const at = flags.now || !wait || waits >= MAX_WAITS ? undefined : await nextTime(after, outbox);
      if (at === undefined || at - Date.now() > LONGEST_WAIT_MS) break;
      const until = `The server asked for time: waiting until ${told(at)}.`;
      output.err(filled(`${until} Ctrl-C leaves it to the worker or a later retry.`, output.columns));
      await wait?.(Math.max(0, at - Date.now()));
    }
    const code = await tell(after, outbox, flags, output);
    await feed.carryOut(flags, outbox);
    return code;
  });
}

/**
 * Opens a destination for a person. What Casetally set by itself is cut short; what a server asked for is not, save with
 * `--now` where it named no time.
 *
 * @throws CasetallyError 'usage' for `--now` before a time that the server named.
 */
async function openAgain(destination: string, outbox: Outbox, now: boolean): Promise<void> {
  const waiting = await outbox.list({ destination, states: ['waiting'] });
  const named = Math.max(...waiting.map(item => namedTime(item, Date.now()) ?? 0));
  if (now && named > Date.now())
    throw new CasetallyError(
      'usage',
      `${destination} asked to be left alone until ${told(named)}: --now does not go before a time that the server named. Without --now, retry waits for it on a terminal.`,
    );
  await reopen(outbox, destination, waiting, now);
}

/** When the first of the items goes again by a time that its server asked for. */
async function nextTime(items: readonly OutboxItem[], outbox: Outbox): Promise<number | undefined> {
  const times: number[] = [];
  for (const item of items) {
    if (item.state !== 'waiting' || !serverAsked(item)) continue;
    const next = await whatNext(item, outbox, Date.now());
    if (next?.at !== undefined) times.push(next.at);
  }
  return times.length > 0 ? Math.min(...times) : undefined;
}

const told = (at: number) => {
  const now = Date.now();
  return `${say(clockTime(at, now))} (in ${Math.ceil((at - now) / 1000)} s)`;
};

async function tell(
  after: readonly OutboxItem[],
  outbox: Outbox,
  flags: OutboxFlags,
  output: Output,
): Promise<ExitCode> {
  const left = after.filter(item => item.state !== 'delivered' && item.state !== 'discarded');
  const next = await Promise.all(after.map(item => whatNext(item, outbox, Date.now())));
  if (flags.json) output.out(jsonText(after.map((item, i) => ({ ...summary(item), ...nextRows(next[i]) }))));
  else {
    output.out(`${after.length - left.length} delivered, ${left.length} left\n`);
    for (const [i, item] of after.entries()) {
      const reason = item.receipt ? '' : ` (${reasonText(item) ?? 'not sent'})`;
      output.out(filled(`${item.id}: ${item.state}${reason}`, output.columns, '', '  '));
      const then = next[i];
      if (then) output.out(filled(nextText(then, Date.now()), output.columns, '  '));
    }
  }
  if (left.length === 0) return exitCodes.ok;
  return left.some(item => item.state === 'parked') ? exitCodes.refused : exitCodes.unreachable;
}

/** What `--accept` lets pass and `--overwrite` replaces, with who and why. */
function choiceOf(id: string | undefined, { accept, overwrite, by, why }: OutboxFlags): Choice | undefined {
  if (!accept && !overwrite) return undefined;
  if (id === undefined || !by || !why)
    throw new CasetallyError('usage', 'to --accept or --overwrite name the item, and say --by and --why.');
  return { by, why, ...(accept && { accept }), ...(overwrite && { overwrite }) };
}
