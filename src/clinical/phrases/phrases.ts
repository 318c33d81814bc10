import { inputs } from './inputs.js';
import { names } from './names.js';
import { reasons } from './reasons.js';
import { results } from './results.js';
import { rules } from './rules.js';

/** Everything that calculations say, in English; other languages fill the same keys, with the same places. */
export const phrases = { ...names, ...inputs, ...rules, ...results, ...reasons } as const;

export type PhraseKey = keyof typeof phrases;

/** Names of the places of a phrase: `'stage {n}'` has `n`. */
export type Places<T extends string> = T extends `${string}{${infer Place}}${infer Rest}`
  ? Place | Places<Rest>
  : never;
