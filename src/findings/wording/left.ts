import { COMMON_PRACTICE, define } from '../define.js';

/** Wording about the plan for what stays in the patient. */
export const leftWording = define({
  'clinical.latest-differs': {
    severity: 'warning',
    message: "'{what}' is planned for {planned}, but {device} may stay only until {latest}.",
    remedy: 'Correct latest under left, or the date of this item.',
    basis: COMMON_PRACTICE,
  },
  'clinical.setting-without-criteria': {
    severity: 'warning',
    message:
      "{device} is left with the setting '{set}', and nothing that can be measured says when that changes.",
    remedy: 'Add criteria to its aftercare item: measure, value, how long, and what follows.',
    basis: COMMON_PRACTICE,
  },
  'clinical.contact-missing': {
    severity: 'warning',
    message: 'Something stays in the patient or is to be done, and nobody to call is named.',
    remedy: 'Add advice.contact, or set contact in the site configuration.',
    basis: COMMON_PRACTICE,
  },
});
