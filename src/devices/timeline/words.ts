import type { Language, WordKey } from '../../findings/languages.js';
import type { Param } from '../../findings/message.js';
import { lexicon, offsetOf } from '../../findings/say.js';
import type { Moment } from '../../record/time.js';
import type { WallClock } from './clock.js';

type Key = WordKey extends infer K ? (K extends `timeline.${infer Name}` ? Name : never) : never;

/** What the timeline is written with, in one language. */
export interface TimelineWords {
  /** A word of the timeline; a place without a value leaves no gap. */
  say(key: Key, values?: Readonly<Record<string, Param | undefined>>): string;
  text(param: Param): string;
  /** The clock time of a moment; with its offset in a case during which the clocks changed. */
  clock(moment: Moment): string;
  /** A day, `2024-03-14`, as people write it. */
  date(iso: string): string;
}

export function timelineWords(language: Language, { changed }: Pick<WallClock, 'changed'>): TimelineWords {
  const { say, text, plainDate: date } = lexicon(language);
  return {
    text,
    date,
    clock: moment =>
      changed ? say('date.offset', { time: moment.clock, offset: offsetOf(moment) }) : moment.clock,
    say: (key, values = {}) =>
      say(
        `timeline.${key}`,
        Object.fromEntries(Object.entries(values).map(([name, value]) => [name, value ?? ''])),
      )
        .replace(/ {2,}/g, ' ')
        .replace(/ (?=[,.;])/g, '')
        .trim(),
  };
}
