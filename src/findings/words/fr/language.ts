import { complete } from '../language.js';
import { forms } from './forms.js';
import { names } from './names/names.js';
import { fr } from './words.js';

/** Français. */
export const language = complete({ name: 'Français', reviewed: 'no', texts: fr, names, forms });
