import { COMMON_PRACTICE, define, RECORD_FORMAT } from '../define.js';

/** Wording of findings about trade words: kinds of case, families of drugs, units of values. */
export const tradeWording = define({
  'clinical.case-kind-unknown': {
    severity: 'information',
    message:
      "'{kind}' is no kind of case that is known here: bleeding risk is not classified, a registry cannot be told what was done, and no code is given.",
    remedy: '{suggestion}',
    basis: RECORD_FORMAT,
  },
  'clinical.case-kind-read': {
    severity: 'information',
    message: "The kind of case '{kind}' is read as '{row}'.",
    remedy: 'Write the kind as it stands in the table if that is not what was done.',
    basis: RECORD_FORMAT,
  },
  'clinical.bleeding-class-unknown': {
    severity: 'information',
    message:
      "The bleeding risk of '{kind}' was not classified: {why}. INR, platelets and fibrinogen were not checked against thresholds, and last doses only against the holds of low risk.",
    remedy:
      "Under clinical.bleedingRisk of the site configuration write '{kind}: low' or '{kind}: high', as the site judges this kind of case.",
    basis: COMMON_PRACTICE,
  },
  'clinical.allergy-cross': {
    severity: 'warning',
    message:
      "'{given}' was given and an allergy to '{allergy}' is recorded; a cross-reaction is {likelihood}.",
    remedy:
      'Check both. If it was given knowingly, acknowledge this with the reason and what was done to prevent harm.',
    basis: COMMON_PRACTICE,
  },
  'clinical.allergy-device': {
    severity: 'warning',
    message: "'{device}': {substance}, and an allergy to '{allergy}' is recorded.",
    remedy: 'Check both. If it was used knowingly, acknowledge this with the reason.',
    basis: COMMON_PRACTICE,
  },
});
