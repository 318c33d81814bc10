import { timelineWords } from '../../../devices/timeline/words.js';

type Keys = { readonly [K in keyof typeof timelineWords as `timeline.${K}`]: string };

/** Fixed words of the picture of the timeline: those it has of itself. */
export const timeline = Object.fromEntries(
  Object.entries(timelineWords).map(([key, word]) => [`timeline.${key}`, word]),
) as Keys;
