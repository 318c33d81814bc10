import { events } from './en/events.js';
import { kinds } from './en/kinds.js';
import { labels } from './en/labels.js';
import { patient } from './en/patient.js';
import { phrases } from './en/phrases.js';
import { readers } from './en/readers.js';
import { timeline } from './en/timeline.js';

/** Every word of the report in English (UK). The keys are the contract for the other languages. */
export const en = {
  ...labels,
  ...kinds,
  ...phrases,
  ...events,
  ...readers,
  ...patient,
  ...timeline,
} as const;
