import { events } from './es/events.js';
import { kinds } from './es/kinds.js';
import { labels } from './es/labels.js';
import { patient } from './es/patient.js';
import { phrases } from './es/phrases.js';
import { readers } from './es/readers.js';
import { timeline } from './es/timeline.js';

/** Every word of the report in Spanish. */
export const es = { ...labels, ...kinds, ...phrases, ...events, ...readers, ...patient, ...timeline };
