import { events } from './de/events.js';
import { kinds } from './de/kinds.js';
import { labels } from './de/labels.js';
import { patient } from './de/patient.js';
import { phrases } from './de/phrases.js';
import { readers } from './de/readers.js';
import { timeline } from './de/timeline.js';

/** Every word of the report in German. */
export const de = { ...labels, ...kinds, ...phrases, ...events, ...readers, ...patient, ...timeline };
