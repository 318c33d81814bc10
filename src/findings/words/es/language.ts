import { complete } from '../language.js';
import { forms } from './forms.js';
import { names } from './names/names.js';
import { es } from './words.js';

/** Español. */
export const language = complete({ name: 'Español', reviewed: 'no', texts: es, names, forms });
