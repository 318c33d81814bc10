import { COMMON_PRACTICE, define, RECORD_FORMAT } from '../define.js';

const TWICE = 'one fact stands in two places of the record, and they differ';

/** Wording of the findings on two places that tell of the same thing. */
export const agreementWording = define({
  'clinical.side-differs': {
    severity: 'warning',
    message: "'{text}' gives the side as {side}; {other} gives it as {otherSide}.",
    remedy: 'Check the images, then correct the place that is wrong.',
    basis: TWICE,
  },
  'clinical.side-missing': {
    severity: 'warning',
    message: "'{what}': the side given is {side}, where {other} is expected.",
    remedy: 'Add the side, or the target that is missing.',
    basis: COMMON_PRACTICE,
  },
  'clinical.contrast-differs': {
    severity: 'warning',
    message: 'Contrast in total is {total}; the events inject {events} ({place}).',
    remedy: 'Correct the total or the events.',
    basis: TWICE,
  },
  'clinical.contrast-route-differs': {
    severity: 'warning',
    message: "Contrast is recorded as {route}; what was entered is '{entered}'.",
    remedy: 'Correct the route, or add the access that is missing.',
    basis: TWICE,
  },
  'clinical.retained-without-complication': {
    severity: 'error',
    message: '{what} stays in the patient against intention, and no complication is recorded.',
    remedy: 'List it under complications, with what was done about it.',
    basis: COMMON_PRACTICE,
  },
  'clinical.own-case': {
    severity: 'error',
    message: 'This case itself ({case}) is named where an earlier one belongs.',
    remedy: 'Write the number of the earlier case, or take it out.',
    basis: 'what the words mean',
  },
  'clinical.consent-refused': {
    severity: 'error',
    message: 'Consent was refused or withdrawn, and the case was carried out.',
    remedy: 'Correct the status of consent (given, emergency, not possible), or the status of the case.',
    basis: COMMON_PRACTICE,
  },
  'clinical.not-done-with-events': {
    severity: 'error',
    message: "The case is recorded as not done, and '{what}' is recorded in it.",
    remedy: "Write 'stopped early' in case.status if the case had begun; else take out what did not happen.",
    basis: RECORD_FORMAT,
  },
  'clinical.outcome-differs': {
    severity: 'warning',
    message: "The overall outcome is {overall}; {place} says '{other}'.",
    remedy: 'Correct the overall outcome, or the place named.',
    basis: TWICE,
  },
  'clinical.death-differs': {
    severity: 'error',
    message: '{place} records a death ({death}); this is about a living patient: {told}.',
    remedy: 'Correct the place that is wrong; take out what no longer applies.',
    basis: TWICE,
  },
  'clinical.complication-unsaid': {
    severity: 'warning',
    message: "'{text}' tells of a complication, and no complication is recorded.",
    remedy: 'Add it to complications, or say in the text that it was there before.',
    basis: TWICE,
  },
  'clinical.fluoroscopy-longer': {
    severity: 'warning',
    message: 'Fluoroscopy of {time} is longer than the case, which lasted {lasted}.',
    remedy: 'Check the unit and the figure of the fluoroscopy time, and start and end of the case.',
    basis: 'what the words mean',
  },
  'clinical.radiation-unsaid': {
    severity: 'warning',
    message: 'X-rays were used ({place}), and no radiation is recorded.',
    remedy: 'Add the figures of the console or dose report.',
    basis: TWICE,
  },
  'clinical.haemoglobin-fall': {
    severity: 'warning',
    message: 'Haemoglobin fell from {from} to {to}, by {fall} g/L, and no bleeding is recorded.',
    remedy:
      'Look for bleeding and record it as a complication, or accept the finding with what explains the fall.',
    basis:
      'Schulman and Kearon, J Thromb Haemost 2005;3:692 (ISTH): a fall of 20 g/L or more counts as major bleeding; from memory',
  },
  'clinical.measurement-differs': {
    severity: 'warning',
    message: '{what} is {value} here and {other} in {place}.',
    remedy: 'Correct the value that is wrong.',
    basis: TWICE,
  },
  'clinical.specimen-differs': {
    severity: 'warning',
    message: 'Specimens say {specimens}; the events say {events} ({place}).',
    remedy: 'Correct the specimens or the events.',
    basis: TWICE,
  },
  'clinical.closure-differs': {
    severity: 'warning',
    message:
      "The access '{site}' is recorded as closed by '{closure}', which no device or event at it bears out.",
    remedy: 'Correct how it was closed, or add the device and its events.',
    basis: TWICE,
  },
  'clinical.kind-differs': {
    severity: 'warning',
    message: "'{text}' does not fit what else is recorded: {other}.",
    remedy: 'Correct kind and title, or add the devices and events that are missing.',
    basis: TWICE,
  },
  'clinical.level-differs': {
    severity: 'warning',
    message: "'{text}' names another level or segment than '{other}' ({place}).",
    remedy: 'Check the images, then correct the place that is wrong.',
    basis: TWICE,
  },
  'clinical.sex-differs': {
    severity: 'warning',
    message: "'{text}' does not fit the sex that is recorded, {sex}.",
    remedy: 'Check that this is the right patient; correct sex or text, or accept the finding with a reason.',
    basis: COMMON_PRACTICE,
  },
  'clinical.age-differs': {
    severity: 'warning',
    message: "'{text}' does not fit the birth date {birth}, which makes {age} years on the day of the case.",
    remedy: 'Check that this is the right patient; correct the birth date or the text.',
    basis: TWICE,
  },
  'clinical.pregnancy-differs': {
    severity: 'warning',
    message: "The pregnancy question is answered '{answer}', which '{text}' contradicts.",
    remedy: 'Ask again, then correct the answer or the text.',
    basis: TWICE,
  },
  'clinical.entered-twice': {
    severity: 'warning',
    message: '{what} is entered twice with the same values and time, first at {first}.',
    remedy: 'Take one out, or correct the time or amount of the second.',
    basis: TWICE,
  },
  'clinical.aftercare-device-out': {
    severity: 'warning',
    message: "'{task}' is about {device}, which is not inside after the case.",
    remedy: 'Name the device that stays, or take the device out of this task.',
    basis: TWICE,
  },
  'tally.left-differs': {
    severity: 'warning',
    message: "'left' says {left}; the event at {time} says {event}.",
    remedy: 'Look at the patient, then correct the place that is wrong, or add the event that changed it.',
    basis: TWICE,
  },
  'tally.not-deployed': {
    severity: 'warning',
    message: '{device} stays and no event sets it free in the patient.',
    remedy: 'Add deploy, release or detach after it went in, before its delivery catheter comes out.',
    basis: COMMON_PRACTICE,
  },
  'tally.not-locked': {
    severity: 'warning',
    message: '{device} stays and its loop was not locked by any event.',
    remedy: 'Lock the loop and add lock, or say in its setting that it was left unlocked.',
    basis: COMMON_PRACTICE,
  },
  'tally.not-filled': {
    severity: 'warning',
    message: '{device} is held by its balloon and stays, but no event fills the balloon.',
    remedy: 'Fill the balloon and add inflate with the volume.',
    basis: COMMON_PRACTICE,
  },
  'tally.flushed-before': {
    severity: 'warning',
    message: '{device} stays, and its only flush, at {time}, is before it went in.',
    remedy: 'Correct the time of the flush, or add the one after it went in.',
    basis: COMMON_PRACTICE,
  },
  'tally.other-side': {
    severity: 'warning',
    message: 'At {time}, {device} goes over {wire} and through {sheath}; the wire runs through {other}.',
    remedy: 'Correct over or through.',
    basis: 'what has happened, in the order of the recorded times',
  },
});
