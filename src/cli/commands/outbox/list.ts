import type { OutboxItem } from '../../../delivery/outbox/outbox.js';
import { type Next, nextRows, whatNext } from '../../../delivery/worker/next.js';
import { caseOf } from '../../../pipeline/outbox-case.js';
import { type ExitCode, exitCodes } from '../../exit.js';
import { counted, jsonText, type Output } from '../../output.js';
import { ageText, clockText } from '../../terminal/clock.js';
import { filled, table } from '../../terminal/fill.js';
import { nextText, reasonText, shortIds } from '../../terminal/item.js';
import { openSite } from '../open-site.js';
import { type OutboxFlags, summary, withOutbox } from './outbox.js';

/** Lists items, newest last. */
export function list(flags: OutboxFlags, output: Output): Promise<ExitCode> {
  return withOutbox(flags, async (outbox, path) => {
    const site = await openSite(flags.site, output);
    if (!site) return exitCodes.usage;
    const items = await outbox.list({ unreadable: true, ...(flags.state && { states: [flags.state] }) });
    const now = Date.now();
    const next = await Promise.all(items.map(item => whatNext(item, outbox, now)));
    if (flags.json)
      output.out(jsonText(items.map((item, i) => ({ ...summary(item), ...nextRows(next[i]) }))));
    else if (items.length === 0)
      output.out(filled(`The outbox ${path} has nothing to show.`, output.columns));
    else {
      output.progress?.(`Reading ${items.length} items`);
      output.out(filled(verdictOf(items), output.columns));
      output.out(rowsOf(items, next, now, site.site.outbox.initials, output));
    }
    return exitCodes.ok;
  });
}

/** `5 items: 1 parked, for a person to look at; 4 delivered`. */
function verdictOf(items: readonly OutboxItem[]): string {
  const count = (state: OutboxItem['state']) => items.filter(item => item.state === state).length;
  const parts = (['parked', 'waiting', 'sending', 'delivered', 'discarded'] as const).flatMap(state => {
    const n = count(state);
    return n === 0 ? [] : [`${n} ${state}${state === 'parked' ? ' (for a person to look at)' : ''}`];
  });
  return `${counted(items.length, 'item', 'items')}: ${parts.join(', ')}`;
}

function rowsOf(
  items: readonly OutboxItem[],
  next: readonly (Next | undefined)[],
  now: number,
  initials: boolean,
  { columns }: Output,
): string {
  const short = shortIds(items.map(({ id }) => id));
  return table(
    [
      ['item', 'case', ...(initials ? ['patient'] : []), 'to', 'state', 'age', 'what and when'],
      ...items.map((item, i) => {
        const named = caseOf(item);
        return [
          short(item.id),
          named.id ?? '?',
          ...(initials ? [named.initials ?? '?'] : []),
          item.destination,
          item.state,
          ageText(item.createdAt, now),
          whatOf(item, next[i], now, short),
        ];
      }),
    ],
    columns,
  );
}

/** Why it is as it is, and what comes next. */
function whatOf(
  item: OutboxItem,
  next: Next | undefined,
  now: number,
  short: (id: string) => string,
): string {
  if (item.receipt) return `accepted at ${clockText(Date.parse(item.receipt.sentAt), now)}`;
  if (item.unreadable) return 'it cannot be opened: casetally outbox doctor';
  const { attempts, parked, state } = item;
  const by = state === 'discarded' && parked ? `by ${parked.by}: ` : '';
  const reason = reasonText(item) ?? (attempts === 0 ? 'not tried yet' : '');
  return [`${by}${reason}`, next ? nextText(next, now, short) : ''].filter(Boolean).join('; ');
}
