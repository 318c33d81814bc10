import { COMMON_PRACTICE, define } from '../define.js';

/** Wording of the findings about the register of devices. */
export const registerWording = define({
  'register.held-back': {
    severity: 'error',
    message: 'Case {case} is not taken into the register: errors in its record: {count}.',
    remedy: 'Mend what is named here, and take it in again.',
    basis: COMMON_PRACTICE,
  },
  'register.no-person': {
    severity: 'warning',
    message:
      'Case {case} is kept without a person: its record gives no number of the patient, or several, and none of them counts.',
    remedy:
      'Set patientSystem under register in the site configuration, and run casetally register rebuild; or give the number in the record.',
    basis: COMMON_PRACTICE,
  },
  'register.several-fit': {
    severity: 'warning',
    message:
      "Case {case}: device '{device}' may be any of {uses}; the register closes none of them by itself.",
    remedy:
      'Say in carried where it came from (use, case, side); or decide: casetally register link {case} {device} USE --by NAME --why TEXT.',
    basis: COMMON_PRACTICE,
  },
  'register.contradiction': {
    severity: 'warning',
    message:
      "Case {case}: device '{device}' would be {uses}, but they differ in {what}; the register leaves both open.",
    remedy:
      'Correct the record that is wrong; or decide: casetally register link {case} {device} USE --by NAME --why TEXT.',
    basis: COMMON_PRACTICE,
  },
  'register.not-held': {
    severity: 'warning',
    message: "Case {case}: device '{device}' names a use ({use}) that is not open in this patient.",
    remedy: 'Correct carried.use; casetally register inside PATIENT lists what is.',
    basis: COMMON_PRACTICE,
  },
  'register.proposed': {
    severity: 'warning',
    message:
      "Case {case}: by kind and place device '{device}' may be {uses}; that alone does not close anything.",
    remedy:
      'Scan the label, or name the use in carried.use; or decide: casetally register link {case} {device} USE --by NAME --why TEXT.',
    basis: COMMON_PRACTICE,
  },
  'register.gap': {
    severity: 'warning',
    message:
      "Case {case}: device '{device}' was where {use} should be, and is another one: a case between them is not held.",
    remedy: 'Take in the case that exchanged it, or correct the record.',
    basis: COMMON_PRACTICE,
  },
  'register.same-serial': {
    severity: 'warning',
    message: 'Two people have a device with identifier {di} and serial number {serial}: {use} and {other}.',
    remedy: 'Correct the record that is wrong; where the two are one person, casetally register join.',
    basis: 'a serial number names one device (IMDRF UDI application guide, UDI WG/N48)',
  },
  'register.version-twice': {
    severity: 'warning',
    message: 'Case {case}: the register has two different records that say they are version {version} of it.',
    remedy: 'Give the later one the next version, and take it in.',
    basis: COMMON_PRACTICE,
  },
});
