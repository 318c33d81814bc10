import { COMMON_PRACTICE, define } from '../define.js';

const DOSES = 'product information and formularies; from memory, confirm against local policy';

/** Wording of findings about figures that cannot be right, doses, and drugs that do not fit the patient. */
export const doseWording = define({
  'clinical.value-unlikely': {
    severity: 'warning',
    message: '{what}',
    remedy: 'Read the value and its unit again at the source. Nothing is worked out from it.',
    basis: COMMON_PRACTICE,
  },
  'clinical.drug-dose-unlikely': {
    severity: 'warning',
    message: "'{drug}' {dose} is no usual dose: {range} is usual at once.{would}",
    remedy: 'Read dose, unit and strength again; acknowledge this with the reason if they are right.',
    basis: DOSES,
  },
  'clinical.drug-dose-by-weight': {
    severity: 'warning',
    message: "'{drug}' {dose} is {ratio} of body weight, above {limit}.{would}",
    remedy: 'Read dose, unit and weight again; acknowledge this with the reason if they are right.',
    basis: DOSES,
  },
  'clinical.drug-dose-repeated': {
    severity: 'warning',
    message: "'{drug}' comes to {sum} within {hours} h, above {limit}.",
    remedy:
      'Take out the dose that was entered twice, or correct its time; acknowledge this with the reason if both were given.',
    basis: DOSES,
  },
  'clinical.route-unlikely': {
    severity: 'warning',
    message: "'{drug}' is not usually given by this route: {route}.",
    remedy: 'Check drug and route; acknowledge this with the reason if they are right.',
    basis: DOSES,
  },
  'clinical.strength-missing': {
    severity: 'warning',
    message: "The dose of '{drug}' is a volume and no strength is recorded.",
    remedy: 'Add strength, such as 1 % or 10 mg/mL, or write the dose as a mass or in IU.',
    basis: COMMON_PRACTICE,
  },
  'clinical.weight-missing': {
    severity: 'warning',
    message: '{what}',
    remedy: 'Add patient.weight.',
    basis: COMMON_PRACTICE,
  },
  'clinical.heparin-after-hit': {
    severity: 'warning',
    message: "'{what}': heparin after heparin-induced thrombocytopenia ('{known}').",
    remedy:
      'Check both. Use another anticoagulant, flush or lock; if it was given knowingly, acknowledge this with the reason.',
    basis: COMMON_PRACTICE,
  },
  'clinical.drug-condition': {
    severity: 'warning',
    message: "'{drug}' was given to a patient with '{condition}' ({place}), which speaks against it.",
    remedy: 'Check drug and condition; acknowledge this with the reason if it was given knowingly.',
    basis: COMMON_PRACTICE,
  },
  'clinical.anticoagulant-differs': {
    severity: 'warning',
    message: "'{text}' does not go with '{other}' ({place}) for {drug}.",
    remedy: 'Write one and the same in all places: stop, go on, or the day on which it starts again.',
    basis: COMMON_PRACTICE,
  },
  'clinical.anticoagulant-unsaid': {
    severity: 'warning',
    message: "'{text}' names {drug}, and the drugs that affect bleeding do not have it.",
    remedy: 'Add it under before.anticoagulants with its last dose, or say in the text that it was stopped.',
    basis: COMMON_PRACTICE,
  },
  'clinical.sedation-differs': {
    severity: 'warning',
    message: '{what}',
    remedy: 'Check sedation (kind, by, start, end) and the drugs given for it.',
    basis: COMMON_PRACTICE,
  },
});
