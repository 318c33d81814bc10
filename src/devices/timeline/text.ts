import type { TimelineBar } from './marks.js';
import type { Timeline, TimelineRow } from './timeline.js';

/** The timeline in words, one line a device: what a screen reader, or a reader without pictures, is given. */
export function timelineText(timeline: Timeline): string {
  const { clock, from, to, rows, unused } = timeline;
  const days =
    clock.date(from) === clock.date(to) ? clock.date(from) : `${clock.date(from)} to ${clock.date(to)}`;
  const lines = [
    `${timeline.title}, ${days}, ${clock.time(from)} to ${clock.time(to)}.`,
    ...insideLines(timeline),
    ...rows.map(row => rowLine(timeline, row)),
  ];
  if (unused.length > 0) lines.push(`Not used: ${unused.join('; ')}.`);
  return `${lines.join('\n')}\n`;
}

/** `Still inside at the end: …` or `Nothing is left inside.`, and what nobody accounts for. */
export function insideLines({ inside, unaccounted, words }: Timeline): string[] {
  const list = (of: readonly string[]) => of.join('; ');
  const lost = unaccounted.length > 0 ? [words.say('lost', { list: list(unaccounted) })] : [];
  if (inside.length > 0) return [words.say('inside', { list: list(inside) }), ...lost];
  return lost.length > 0 ? lost : [words.say('nothing')];
}

function rowLine({ clock }: Timeline, row: TimelineRow): string {
  const spans = row.bars.map(bar => spanWords(clock.time, bar));
  const marks = row.marks.map(mark => `${mark.words} at ${clock.time(mark.from)}`);
  const ends = row.end === 'out' && !row.words.includes('missing') ? [] : [row.words];
  return `${row.name}: ${[...spans, ...marks, ...ends].join('; ')}.`;
}

function spanWords(time: (epoch: number) => string, bar: TimelineBar): string {
  const number = bar.count > 1 ? `${bar.count} ` : '';
  const from = bar.from === undefined ? 'in before the case' : `in at ${time(bar.from)}`;
  return `${number}${from}${bar.to === undefined ? '' : `, out at ${time(bar.to)}`}`;
}
