import type { Language, WordKey } from '../../findings/languages.js';
import type { Param } from '../../findings/message.js';
import { lexicon } from '../../findings/say.js';

type Key = WordKey extends infer K ? (K extends `timeline.${infer Name}` ? Name : never) : never;

/** What the timeline is written with, in one language. */
export interface TimelineWords {
  /** A word of the timeline; a place without a value leaves no gap. */
  say(key: Key, values?: Readonly<Record<string, Param | undefined>>): string;
  text(param: Param): string;
}

export function timelineWords(language: Language): TimelineWords {
  const { say, text } = lexicon(language);
  return {
    text,
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
