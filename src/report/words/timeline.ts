import { type TimelineWords, timelineWords } from '../../devices/timeline/words.js';
import { isWordKey, type Language, wordsOf } from './lexicon.js';

/** What the picture of the timeline says in a language. */
export function timelineWordsOf(language: Language): TimelineWords {
  const words = wordsOf(language);
  const said = (key: string, english: string) => {
    const name = `timeline.${key}`;
    return isWordKey(name) ? words[name] : english;
  };
  return Object.fromEntries(
    Object.entries(timelineWords).map(([key, english]) => [key, said(key, english)]),
  ) as TimelineWords;
}
