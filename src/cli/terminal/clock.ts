import { type Message, message } from '../../findings/message.js';
import { say } from '../../findings/say.js';

const MINUTE = 60_000;
const two = (n: number) => String(n).padStart(2, '0');

/** `20:41`, with the seconds where it is a matter of them, and with the date where it is another day. */
export function clock(at: number, now: number): string | Message {
  const date = new Date(at);
  const time = date.toTimeString().slice(0, Math.abs(at - now) < 2 * MINUTE ? 8 : 5);
  if (date.toDateString() === new Date(now).toDateString()) return time;
  const day = `${date.getFullYear()}-${two(date.getMonth() + 1)}-${two(date.getDate())}`;
  return message('next.on', { time, date: { day } });
}

/** The time of day, on this machine's clock. */
export const clockText = (at: number, now: number): string => say(clock(at, now));

/** `5 min`, `3 h`, `2 d`. */
export function ageText(since: number, now: number): string {
  const minutes = Math.max(0, Math.floor((now - since) / MINUTE));
  if (minutes < 120) return `${minutes} min`;
  const hours = Math.floor(minutes / 60);
  return hours < 48 ? `${hours} h` : `${Math.floor(hours / 24)} d`;
}
