import { compareText } from '../findings/finding.js';
import { type Message, message, type Param } from '../findings/message.js';
import { shownText } from '../record/issues.js';
import { readMoment, readWhen, type TimeContext } from '../record/time.js';
import type { Contribution, SourceKind, Typed } from './contribution.js';

/** One source, as `sources` of a record names it. */
export interface Source {
  readonly from: SourceKind;
  readonly at: string;
  readonly by?: string | undefined;
}

/**
 * Kinds of source, the one whose value is taken first where several say the same: what a machine read before what a
 * person filled in, and what was planned last.
 */
const RANKS: readonly SourceKind[] = [
  'scan',
  'dose report',
  'register',
  'order',
  'earlier case',
  'form',
  'line',
  'kit',
];

export const rankOf = ({ from }: Pick<Source, 'from'>): number => RANKS.indexOf(from);

/** Whole seconds, as a record has them. */
export const sourceOf = ({ from, at, by }: Contribution): Source => ({
  from,
  at: at.trim().replace(/\.\d+(?=Z|[+-]|$)/, ''),
  ...(by !== undefined && by.trim() !== '' && { by: by.trim() }),
});

/** The same order, kit or file; its date may differ. */
export const sameSource = (a: Source, b: Source): boolean => a.from === b.from && a.by === b.by;

/** `order 4711`, in the reader's language. */
export function sourceSaid({ from, by }: Source): Message {
  const source = message(`source.${from}`);
  return by === undefined ? source : message('source.named', { source, by: shownText(by) });
}

/** A value as findings show it, on one line. */
export function valueSaid(value: Typed): Param {
  if (typeof value === 'string') return shownText(value);
  return shownText(typeof value === 'boolean' ? (value ? 'yes' : 'no') : JSON.stringify(value));
}

/** The day of a time as findings show it. */
export const timeSaid = (text: string): Param => ({ when: { text, iso: text.slice(0, 10) } });

/** Milliseconds since 1970 of a time or of the beginning of a day in UTC; undefined for what is neither. */
export function epochOf(text: string, context: TimeContext): number | undefined {
  const read = readWhen(text, context);
  if (!read.ok) return undefined;
  const { moment, iso } = read.value;
  const epoch = moment ? moment.epoch : Date.parse(iso);
  return Number.isNaN(epoch) ? undefined : epoch;
}

/** True for a source whose time a record can hold: a moment with its offset. */
export const isDated = (one: Contribution): boolean => readMoment(sourceOf(one).at, {}).ok;

/** In an order of their own, each once: it makes no difference in which order sources are brought in. */
export function inOrder(contributions: readonly Contribution[]): Contribution[] {
  const texts = new Map(contributions.map(one => [JSON.stringify(one), one]));
  return [...texts]
    .sort(
      ([textA, a], [textB, b]) =>
        rankOf(a) - rankOf(b) || compareText(b.at, a.at) || compareText(textA, textB),
    )
    .map(([, one]) => one);
}
