import { COMMON_PRACTICE, define } from '../define.js';

/** Wording of the findings about what cannot be found. */
export const missingWording = define({
  'tally.missing': {
    severity: 'warning',
    message: '{what} cannot be found. Searched: {searched}. Imaging: {imaging}.',
    remedy:
      'Follow local policy on missing items; acknowledge this line once the patient and the team know what was done.',
    basis: COMMON_PRACTICE,
  },
  'tally.missing-accounted': {
    severity: 'error',
    message: "{what} is listed in 'missing', and events or 'left' say where it is.",
    remedy: "Take the line out of 'missing', or take out the removal or the line of 'left' that is not true.",
    basis: COMMON_PRACTICE,
  },
});
