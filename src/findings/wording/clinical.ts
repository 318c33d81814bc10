import { COMMON_PRACTICE, define } from '../define.js';

/** Wording of the clinical findings. Each is a reminder for a licensed reader; none is an order. */
export const clinicalWording = define({
  'clinical.dose-unit-slip': {
    severity: 'warning',
    message:
      'Kerma-area product {product} and air kerma {kerma} do not fit together: they give a mean field of {area} cm², outside {least} to {most} cm². {slip}',
    remedy: 'Read both figures and their units on the console again.',
    basis: COMMON_PRACTICE,
  },
  'clinical.dose-rate': {
    severity: 'warning',
    message: 'Air kerma {kerma} in {time} of fluoroscopy is {rate} mGy/min, which is hardly possible.',
    remedy: 'Read the time, the air kerma and their units on the console again.',
    basis: COMMON_PRACTICE,
  },
  'clinical.dose-notify': {
    severity: 'information',
    message: '{what} {value} passed the notification level of {limit}.',
    remedy: 'Tell the operator, and note it, as local policy says.',
    basis: COMMON_PRACTICE,
  },
  'clinical.dose-substantial': {
    severity: 'warning',
    message: '{what} {value} reached the substantial dose level of {limit}.',
    remedy: 'Plan a look at the skin and tell the patient what to watch for, as local policy says.',
    basis: COMMON_PRACTICE,
  },
  'clinical.dose-local': {
    severity: 'information',
    message: '{what} {value} is above the local reference level of {limit} for this kind of case.',
    remedy: 'Note why, if it is known.',
    basis: 'the site configuration',
  },
  'clinical.skin-review-missing': {
    severity: 'warning',
    message: 'A substantial dose level was reached and no aftercare item looks at the skin.',
    remedy: 'Add an aftercare item for the skin, or acknowledge this with the reason.',
    basis: 'SIR 2009 (Stecker et al., JVIR 20:S263): follow-up after a substantial dose',
  },
  'clinical.pregnant': {
    severity: 'warning',
    message: 'Radiation was used and the patient is recorded as pregnant.',
    remedy: 'Note the justification and the estimate of dose to the uterus, as local policy says.',
    basis: COMMON_PRACTICE,
  },
  'clinical.pregnancy-not-asked': {
    severity: 'warning',
    message: 'Radiation was used and no answer to the pregnancy question is recorded.',
    remedy: 'Add patient.pregnant: yes, no, not applicable or unknown.',
    basis: COMMON_PRACTICE,
  },
  'clinical.egfr-contrast': {
    severity: 'warning',
    message:
      'Intravascular contrast was given at an estimated filtration rate of {egfr} mL/min/1.73 m², below {limit}.',
    remedy: 'Plan creatinine afterwards, as local policy says.',
    basis: COMMON_PRACTICE,
  },
  'clinical.contrast-volume': {
    severity: 'warning',
    message: '{volume} mL of intravascular contrast is above the limit of {limit} mL.',
    remedy: 'Check the volume; note the reason if it is right.',
    basis: 'the site configuration',
  },
  'clinical.allergy-given': {
    severity: 'error',
    message: "'{given}' was given and an allergy to '{allergy}' is recorded.",
    remedy:
      'Check both. If it was given knowingly, write so in the note of the allergy or the drug and acknowledge this.',
    basis: COMMON_PRACTICE,
  },
  'clinical.lab-missing': {
    severity: 'warning',
    message: '{lab} before this {risk}-risk procedure is not recorded.',
    remedy: 'Record it, or acknowledge this with the reason.',
    basis: 'SIR consensus guideline 2019 (Patel et al., JVIR 2019;30:1168)',
  },
  'clinical.lab-old': {
    severity: 'warning',
    message: '{lab} is {days} days old; the limit is {limit} days.',
    remedy: 'Record a later value if there is one.',
    basis: COMMON_PRACTICE,
  },
  'clinical.lab-threshold': {
    severity: 'warning',
    message: '{lab} {value} is beyond the threshold of {limit} for a {risk}-risk procedure.',
    remedy: 'Note what was done about it, or acknowledge this with the reason.',
    basis: COMMON_PRACTICE,
  },
  'clinical.hold-short': {
    severity: 'warning',
    message: "The last dose of '{drug}' was {hours} h before access; the hold table asks for {limit} h.",
    remedy: 'Check the time; note the reason if it is right.',
    basis: 'the site configuration',
  },
  'clinical.hold-unknown': {
    severity: 'warning',
    message: "The last dose of '{drug}' is not recorded.",
    remedy: 'Add lastDose.',
    basis: COMMON_PRACTICE,
  },
  'clinical.prophylaxis-late': {
    severity: 'warning',
    message: "'{drug}' for prophylaxis was given at {time}, after access at {access}.",
    remedy: 'Check the times; note the reason if they are right.',
    basis: COMMON_PRACTICE,
  },
  'clinical.prophylaxis-early': {
    severity: 'warning',
    message: "'{drug}' for prophylaxis was given {minutes} min before access; the limit is {limit} min.",
    remedy: 'Check the times; note whether another dose was given.',
    basis: 'the site configuration',
  },
  'clinical.local-anaesthetic': {
    severity: 'warning',
    message: "'{drug}' {dose} mg is {perKg} mg/kg, above {limit} mg/kg.",
    remedy: 'Check dose, strength and weight; watch the patient as local policy says.',
    basis: 'the site configuration',
  },
  'clinical.fasting': {
    severity: 'warning',
    message: '{what} {hours} h before sedation; the limit is {limit} h.',
    remedy: 'Check the time; note the reason if it is right.',
    basis: 'the site configuration',
  },
  'clinical.grade-differs': {
    severity: 'warning',
    message: "'{what}' is graded {written} ({scale}), and its recorded consequences give {computed}.",
    remedy: 'Check the grade, or the treatment, stay and harm that were recorded.',
    basis: 'the scale named in the message',
  },
  'clinical.grade-missing': {
    severity: 'warning',
    message: "The complication '{what}' has no grade.",
    remedy: 'Add grade with scale and grade.',
    basis: COMMON_PRACTICE,
  },
  'clinical.success-differs': {
    severity: 'warning',
    message: "Target '{target}' is recorded as {written}, and {why}.",
    remedy: 'Check the record of this target.',
    basis: COMMON_PRACTICE,
  },
  'clinical.narrowing': {
    severity: 'error',
    message: "Narrowing of {value} at '{target}' is outside 0 to 100 %.",
    remedy: 'Write the narrowing as a percentage of the healthy diameter.',
    basis: 'arithmetic',
  },
  'clinical.left-without-aftercare': {
    severity: 'error',
    message: "'{device}' stays in the patient and nothing says what becomes of it.",
    remedy: 'Add an aftercare item for it, or until / latest under left.',
    basis: COMMON_PRACTICE,
  },
  'clinical.due-order': {
    severity: 'error',
    message: "'{what}': {earlier} is after {later}.",
    remedy: 'Put earliest, due and latest in order.',
    basis: COMMON_PRACTICE,
  },
  'clinical.due-before-case': {
    severity: 'error',
    message: "'{what}' is due on {date}, before the case.",
    remedy: 'Mend the date.',
    basis: COMMON_PRACTICE,
  },
  'clinical.due-uncountable': {
    severity: 'warning',
    message: "'{written}' cannot be counted into a day.",
    remedy: 'Write whole days, weeks, months or years, or a date.',
    basis: COMMON_PRACTICE,
  },
});
