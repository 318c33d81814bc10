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
  'clinical.prophylaxis-differs': {
    severity: 'warning',
    message: "'{text}' does not fit the antibiotics among the drugs ({drugs}).",
    remedy: 'Correct the text, or add to drugs what was given, with its time.',
    basis: COMMON_PRACTICE,
  },
  'clinical.allergy-unsaid': {
    severity: 'warning',
    message: "'{text}' tells of an allergy, and before.allergies does not have it.",
    remedy: 'Add it under before.allergies, or say in the text that it was ruled out.',
    basis: COMMON_PRACTICE,
  },
  'clinical.severity-differs': {
    severity: 'warning',
    message: "'{what}' is called mild; {place} is '{consequence}'.",
    remedy: 'Correct the severity, or the place named.',
    basis: COMMON_PRACTICE,
  },
  'clinical.device-unlisted': {
    severity: 'warning',
    message: "'{text}' names a device ({device}), and the devices do not list one.",
    remedy:
      'Add it to devices with its events, or say in the text that it was there before, planned or not used.',
    basis: COMMON_PRACTICE,
  },
  'clinical.complication-device': {
    severity: 'warning',
    message: "The complication '{text}' is about a device ({device}) that the case did not use.",
    remedy:
      'Correct the complication, or add the device to devices (as carried, if an earlier case placed it).',
    basis: COMMON_PRACTICE,
  },
  'clinical.drug-unsaid': {
    severity: 'warning',
    message: "'{agent}' was injected by an event, and the drugs do not have {drug}.",
    remedy: 'Add it to drugs with its dose, or correct the agent.',
    basis: COMMON_PRACTICE,
  },
});
