import { COMMON_PRACTICE, define } from '../define.js';

/** Wording about how the case went, told in two places. */
export const courseWording = define({
  'clinical.status-differs': {
    severity: 'warning',
    message: "The case is completed by its status; {place} says '{text}'.",
    remedy: "Set case.status to '{status}' with case.reason, or correct the text.",
    basis: COMMON_PRACTICE,
  },
  'clinical.plan-differs': {
    severity: 'warning',
    message: "'{text}' does not go with '{other}' ({place}).",
    remedy: 'Correct the place that is wrong, or acknowledge this with the reason for the change.',
    basis: COMMON_PRACTICE,
  },
  'clinical.severity-differs': {
    severity: 'warning',
    message: "'{what}' is called mild; {place} is '{consequence}'.",
    remedy: 'Correct the severity, or the place named.',
    basis: COMMON_PRACTICE,
  },
});
