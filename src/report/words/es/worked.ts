import { inputs } from './worked/inputs.js';
import { names } from './worked/names.js';
import { reasons } from './worked/reasons.js';
import { results } from './worked/results.js';
import { rules } from './worked/rules.js';

/** Everything that calculations say, in Spanish. */
export const worked = { ...names, ...inputs, ...rules, ...results, ...reasons };
