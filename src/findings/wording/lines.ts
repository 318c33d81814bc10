import { COMMON_PRACTICE, define } from '../define.js';

/** Wording of the findings about spoken or typed lines. */
export const lineWording = define({
  'lines.uncertain': {
    severity: 'warning',
    message: 'Line {n} is uncertain: {why}.',
    remedy: 'Compare what is proposed with what was done, then correct it or take it over.',
    basis: COMMON_PRACTICE,
  },
  'lines.not-understood': {
    severity: 'warning',
    message: 'Line {n} was not understood: {why}.',
    remedy: 'Say it in other words, or write the event by hand.',
    basis: COMMON_PRACTICE,
  },
  'lines.too-long': {
    severity: 'error',
    message: 'Line {n} has {found} characters and was not read; a line has at most {limit}.',
    remedy: 'Give one line for each step.',
    basis: COMMON_PRACTICE,
  },
  'lines.too-many': {
    severity: 'error',
    message: 'There are {found} lines; only the first {limit} were read.',
    remedy: 'Give the lines of one case at a time.',
    basis: COMMON_PRACTICE,
  },
  'lines.unprintable': {
    severity: 'error',
    message: 'Line {n} contains a control character and was not read.',
    remedy: 'Type the line again.',
    basis: COMMON_PRACTICE,
  },
});
