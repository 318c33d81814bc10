import type { OutboxItem } from '../../delivery/outbox/outbox.js';
import type { Next } from '../../delivery/worker/next.js';
import { reasonMessage } from '../../delivery/worker/reason.js';
import { message, type Param } from '../../findings/message.js';
import { say } from '../../findings/say.js';
import { clock } from './clock.js';

/** Shortest beginning of an id that is shown. */
const SHORT = 8;

/** The ids as they are shown: as much as tells each from the others. */
export function shortIds(ids: readonly string[]): (id: string) => string {
  let length = SHORT;
  while (new Set(ids.map(id => id.slice(0, length))).size < new Set(ids).size) length += 1;
  return id => (ids.includes(id) ? id.slice(0, length) : id);
}

/** What happens next, with the time of day where it happens at a time. @param short ids as they are shown */
export function nextText(
  { message: said, at }: Next,
  now: number,
  short: (id: string) => string = id => id,
): string {
  const params = Object.fromEntries(
    Object.entries(said.params).map(([name, param]): [string, Param] => {
      if (typeof param !== 'string') return [name, param];
      return [
        name,
        name === 'reason' ? reasonMessage(param) : name === 'id' || name === 'before' ? short(param) : param,
      ];
    }),
  );
  const time = at !== undefined && { time: message('next.clock', { time: clock(at, now) }) };
  return say({ ...said, params: { ...params, ...time } });
}

/** Why an item is not delivered, in words. What a person gave as a reason stands as it is. */
export function reasonText({
  parked,
  lastReason,
}: Pick<OutboxItem, 'parked' | 'lastReason'>): string | undefined {
  const reason = parked?.reason ?? lastReason;
  return reason === undefined ? undefined : say(reasonMessage(reason));
}
