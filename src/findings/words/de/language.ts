import { complete } from '../language.js';
import { forms } from './forms.js';
import { names } from './names/names.js';
import { de } from './words.js';

/** Deutsch. */
export const language = complete({ name: 'Deutsch', reviewed: 'no', texts: de, names, forms });
