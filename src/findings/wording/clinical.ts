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
  'clinical.dose-field-narrow': {
    severity: 'information',
    message:
      'Kerma-area product {product} and air kerma {kerma} give a mean field of {area} cm², under {limit} cm²: the beam was narrow, or one of them is ten times off.',
    remedy: 'Read both figures and their units on the console again if the beam was not narrow.',
    basis: COMMON_PRACTICE,
  },
  'clinical.dose-rate': {
    severity: 'warning',
    message: '{what} {value} in {time} of fluoroscopy is {rate}, outside {range}.',
    remedy: 'Read the time, the dose and their units on the console again.',
    basis: COMMON_PRACTICE,
  },
  'clinical.dose-scan-length': {
    severity: 'warning',
    message:
      'Dose-length product {product} and CT dose index {index} give a scanned length of {length} cm, outside {least} to {most} cm. {slip}',
    remedy: 'Read both figures and their units on the scanner again.',
    basis: COMMON_PRACTICE,
  },
  'clinical.dose-notify': {
    severity: 'information',
    message: '{what} {value} reached the notification level of {limit}{steps}.',
    remedy: 'Tell the operator, and note it, as local policy says.',
    basis: COMMON_PRACTICE,
  },
  'clinical.dose-substantial': {
    severity: 'warning',
    message: '{what} {value} reached the substantial dose level of {limit}.',
    remedy:
      'Plan a look at the skin and tell the patient what to watch for, as local policy says, and acknowledge this with it.',
    basis: COMMON_PRACTICE,
  },
  'clinical.dose-local': {
    severity: 'information',
    message: 'Kerma-area product {value} is above the local reference level of {limit} for {kind}.',
    remedy: 'Note why, if it is known.',
    basis: 'the site configuration',
  },
  'clinical.skin-review-missing': {
    severity: 'warning',
    message:
      'A substantial dose level was reached and no aftercare item of the record looks at the skin; one is proposed.',
    remedy: 'Add an aftercare item for the skin with a date, or acknowledge this with the reason.',
    basis: 'SIR 2009 (Stecker et al., JVIR 20:S263): follow-up after a substantial dose; from memory',
  },
  'clinical.pregnant': {
    severity: 'warning',
    message: 'Radiation was used and the patient is recorded as pregnant.',
    remedy:
      'Note the justification and the estimate of dose to the uterus, as local policy says, and acknowledge this with them.',
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
    remedy: 'Plan creatinine afterwards, as local policy says, and acknowledge this with it.',
    basis: COMMON_PRACTICE,
  },
  'clinical.contrast-volume': {
    severity: 'warning',
    message: '{volume} mL of intravascular contrast is above the limit of {limit} mL ({rule}).',
    remedy: 'Check the volume; acknowledge this with the reason if it is right.',
    basis: COMMON_PRACTICE,
  },
  'clinical.allergy-given': {
    severity: 'warning',
    message: "'{given}' was given and an allergy to '{allergy}' is recorded.",
    remedy:
      'Check both. If it was given knowingly, acknowledge this with the reason and what was done to prevent harm.',
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
    remedy: 'Record a later value if there is one, or acknowledge this with the reason.',
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
    message: "The last dose of '{drug}' was {hours} h before access; a hold of {limit} h is asked for.",
    remedy: 'Check the time; acknowledge this with the reason if it is right.',
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
    message: "'{drug}' for prophylaxis was first given at {time}, after access at {access}.",
    remedy: 'Check the times; acknowledge this with the reason if they are right.',
    basis: COMMON_PRACTICE,
  },
  'clinical.prophylaxis-early': {
    severity: 'warning',
    message: "'{drug}' for prophylaxis was given {minutes} min before access; the limit is {limit} min.",
    remedy: 'Check the times; add the other dose if one was given, or acknowledge this with the reason.',
    basis: 'the site configuration',
  },
  'clinical.local-anaesthetic': {
    severity: 'warning',
    message: '{what}',
    remedy:
      'Check dose, strength and weight; watch the patient as local policy says, and acknowledge this with what was done.',
    basis: 'the site configuration',
  },
  'clinical.fasting': {
    severity: 'warning',
    message: '{what}: last taken {hours} h before sedation; the limit is {limit} h.',
    remedy: 'Check the time; acknowledge this with the reason if it is right.',
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
    message: "'{what}' is due {date}, before the case was over.",
    remedy: 'Correct the date.',
    basis: COMMON_PRACTICE,
  },
  'clinical.due-uncountable': {
    severity: 'warning',
    message: "'{written}' cannot be counted into a day or a time.",
    remedy:
      'Write hours, or whole days, weeks, months or years, or a date; hours are counted from the end of the case (case.ended).',
    basis: COMMON_PRACTICE,
  },
  'clinical.dose-negative': {
    severity: 'error',
    message: 'A dose or time of {value} is below zero.',
    remedy: 'Read the figure on the console again.',
    basis: 'arithmetic',
  },
  'clinical.pregnancy-unknown': {
    severity: 'information',
    message: 'Radiation was used and it was not known whether the patient is pregnant.',
    remedy: 'Note the justification, as local policy says.',
    basis: COMMON_PRACTICE,
  },
  'clinical.egfr-not-assessed': {
    severity: 'information',
    message: 'Contrast went into vessels and kidney function was not assessed: {why}.',
    remedy: 'Add creatinine before the case with its time, date of birth and sex, where they are known.',
    basis: COMMON_PRACTICE,
  },
  'clinical.kidney-injury': {
    severity: 'warning',
    message: 'Creatinine after the case meets the criteria of acute kidney injury, stage {stage}.',
    remedy:
      'Check the values and their times; tell those who look after the patient, and acknowledge this with who was told.',
    basis: 'KDIGO Acute Kidney Injury 2012, table 2',
  },
  'clinical.lab-undecided': {
    severity: 'information',
    message:
      '{lab} {value} was not assessed against the threshold of {limit} for a {risk}-risk procedure: it is only a bound, or has no usable unit.',
    remedy: 'Write the measured value, if there is one.',
    basis: COMMON_PRACTICE,
  },
  'clinical.prophylaxis-redose': {
    severity: 'warning',
    message:
      "No further dose of '{drug}' for prophylaxis is recorded for {span} after {time}; the interval is {limit} h.",
    remedy: 'Check the times; add the further dose if it was given.',
    basis: 'the site configuration',
  },
  'clinical.reversal-given': {
    severity: 'information',
    message: "'{drug}' {dose} was given at {time} to reverse another drug.",
    remedy: 'Watch for the return of its effect, as local policy says.',
    basis: COMMON_PRACTICE,
  },
  'clinical.fasting-not-recorded': {
    severity: 'information',
    message: '{what} before sedation was not assessed: no time of the last intake is recorded.',
    remedy: 'Add it under before.fasting, where it is known.',
    basis: COMMON_PRACTICE,
  },
  'clinical.narrowing-differs': {
    severity: 'warning',
    message:
      "Narrowing at '{target}' is written as {written} and comes to {computed}% from the diameters, more than {limit} points apart.",
    remedy: 'Check the narrowing, the lumen and the healthy diameter.',
    basis: COMMON_PRACTICE,
  },
  'clinical.session-without-earlier': {
    severity: 'warning',
    message: 'This is session {session}, and the record refers to no earlier attempt.',
    remedy: 'Add before.earlierAttempts, and under devices what the earlier session left in place (carried).',
    basis: COMMON_PRACTICE,
  },
  'clinical.criterion-value': {
    severity: 'warning',
    message: "The condition '{measure} {is}' {wanted}: as written nobody can act on it.",
    remedy: 'Add or take away the value of this condition.',
    basis: COMMON_PRACTICE,
  },
  'clinical.capped-without-criteria': {
    severity: 'warning',
    message:
      "'{device}' is left capped or clamped, and nothing says what decides that it is opened again or may come out.",
    remedy: 'Add criteria to its aftercare item: measure, value, how long, and what follows.',
    basis: COMMON_PRACTICE,
  },
  'clinical.later-than-policy': {
    severity: 'warning',
    message: "'{what}' is planned for {planned}; the policy of the site allows until {allowed}.",
    remedy: 'Check the date; acknowledge this with the reason if it is meant.',
    basis: 'the site configuration',
  },
});
