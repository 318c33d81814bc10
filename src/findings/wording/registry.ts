import { COMMON_PRACTICE, define } from '../define.js';

const IDENTIFICATION = 'IMDRF/UDI WG/N48:2019 (device identification in registries)';

/** Wording of the registry findings. */
export const registryWording = define({
  'registry.identifier-missing': {
    severity: 'error',
    message: "Case {case}: the registry entry for device '{device}' lacks a device identifier.",
    remedy: 'Scan the label, or give udi.',
    basis: IDENTIFICATION,
  },
  'registry.lot-missing': {
    severity: 'error',
    message: "Case {case}: the registry entry for device '{device}' lacks a lot or serial number.",
    remedy: 'Scan the label, or give lot or serial.',
    basis: IDENTIFICATION,
  },
  'registry.placed-missing': {
    severity: 'error',
    message: "Case {case}: the registry entry for device '{device}' lacks the day it was placed.",
    remedy: 'Give carried.date, as precise as it is known.',
    basis: COMMON_PRACTICE,
  },
  'registry.held-back': {
    severity: 'error',
    message: 'Case {case} is not given to a registry: errors in its record: {count}.',
    remedy: 'Mend what is named here, and build again.',
    basis: COMMON_PRACTICE,
  },
  'registry.preliminary': {
    severity: 'warning',
    message: 'Case {case} waits: its report is preliminary.',
    remedy: 'Build again once the report is final.',
    basis: COMMON_PRACTICE,
  },
  'registry.newer-version': {
    severity: 'information',
    message: 'Case {case}: version {version} is among the files too, and counts instead of this one.',
    remedy: 'Nothing to do.',
    basis: COMMON_PRACTICE,
  },
  'registry.given-twice': {
    severity: 'information',
    message: 'Case {case} is among the files more than once, word for word; it counts once.',
    remedy: 'Nothing to do.',
    basis: COMMON_PRACTICE,
  },
  'registry.version-twice': {
    severity: 'error',
    message: 'Case {case}: two different records say that they are version {version} of it.',
    remedy: 'Leave out the one that does not hold, or give the later one the next version.',
    basis: COMMON_PRACTICE,
  },
  'registry.kind-unlisted': {
    severity: 'error',
    message:
      "Case {case}: no kind of case is known by the words '{kind}', so a registry cannot be told what was done.",
    remedy: 'Write the kind as the trade does, such as nephrostomy exchange or caval filter insertion.',
    basis: COMMON_PRACTICE,
  },
  'registry.patient-numbers': {
    severity: 'error',
    message: 'The patient has several numbers, and nothing says which one the registry goes by.',
    remedy: 'Set patientSystem in the registry settings of the site configuration.',
    basis: COMMON_PRACTICE,
  },
  'registry.patient-number-missing': {
    severity: 'error',
    message: 'The patient has no number, or several, of the system that the registry goes by ({system}).',
    remedy: 'Give the one number of that system in patient.identifiers.',
    basis: COMMON_PRACTICE,
  },
  'registry.withheld': {
    severity: 'information',
    message:
      "Device '{device}': {field} is not sent to the registry, as typed text may name a person and nothing else bears it out.",
    remedy:
      'Scan the label; or list the text in the catalogue of devices or under allowed in the registry settings.',
    basis: COMMON_PRACTICE,
  },
  'registry.key-missing': {
    severity: 'warning',
    message:
      "Registry '{registry}' has no secret for pseudonyms: this build cannot be linked with any other.",
    remedy: 'Set key in the registry settings of the site configuration (env:NAME or file:PATH).',
    basis: COMMON_PRACTICE,
  },
  'registry.key-newline': {
    severity: 'warning',
    message:
      "The secret of registry '{registry}' ({key}) ends in a line break, which is taken as a part of it.",
    remedy:
      'Set keyEndsInNewline: true where pseudonyms were already made with it; otherwise write the file without the line break.',
    basis: COMMON_PRACTICE,
  },
  'registry.no-device': {
    severity: 'information',
    message: 'Case {case} has no device that a registry would hold.',
    remedy: 'Nothing to do.',
    basis: COMMON_PRACTICE,
  },
  'registry.element-missing': {
    severity: 'error',
    message: "Case {case}: the registry cannot do without '{element}' of device '{device}'.",
    remedy: 'Give it in the record; the definition of the registry names what it asks for.',
    basis: COMMON_PRACTICE,
  },
  'registry.element-wanted': {
    severity: 'information',
    message: "Case {case}: the registry would like '{element}' of device '{device}'.",
    remedy: 'Give it in the record where it is known.',
    basis: COMMON_PRACTICE,
  },
  'registry.value-not-taken': {
    severity: 'error',
    message: "Case {case}, device '{device}': the registry does not take '{value}' as '{element}'.",
    remedy: 'Correct the record; or ask the registry for a definition that has this value.',
    basis: COMMON_PRACTICE,
  },
  'registry.value-too-long': {
    severity: 'error',
    message:
      "Case {case}, device '{device}': '{element}' is longer than the registry takes ({count} characters).",
    remedy: 'Correct the record, or ask the registry what is to be done.',
    basis: COMMON_PRACTICE,
  },
  'registry.few-alike': {
    severity: 'information',
    message:
      'Case {case}: fewer than {count} people are alike in what the registry names, so its dates and age are sent less precise.',
    remedy: 'Nothing to do.',
    basis: COMMON_PRACTICE,
  },
  'registry.too-few-alike': {
    severity: 'warning',
    message:
      "Case {case}: fewer than {count} people are alike even with the coarsest dates and age; the registry's definition withholds it.",
    remedy: 'It goes out by itself with a later send, once there are more.',
    basis: COMMON_PRACTICE,
  },
  'registry.refused': {
    severity: 'error',
    message: "Case {case}: the registry refused the entry of device '{device}' ({code}): {says}",
    remedy: '{remedy} Then casetally registry send: it goes out as the next version.',
    basis: COMMON_PRACTICE,
  },
  'registry.not-answered': {
    severity: 'warning',
    message: "Case {case}: the registry's answer leaves out the entry of device '{device}'.",
    remedy: 'Ask the registry, or send it once more: casetally registry resend.',
    basis: COMMON_PRACTICE,
  },
  'registry.answer-unknown-entry': {
    severity: 'warning',
    message: 'Line {line} of the answer is about an entry that is not in this batch.',
    remedy: 'Ask the registry; nothing was changed by that line.',
    basis: COMMON_PRACTICE,
  },
  'registry.answer-other-version': {
    severity: 'warning',
    message:
      'Line {line} of the answer is about version {version} of an entry; version {sent} was sent in this batch.',
    remedy: 'Nothing to do; nothing was changed by that line.',
    basis: COMMON_PRACTICE,
  },
  'registry.answer-other-digest': {
    severity: 'error',
    message: 'The answer is about other bytes than batch {batch} has.',
    remedy: 'Ask the registry what it received; nothing was changed.',
    basis: COMMON_PRACTICE,
  },
  'registry.answer-incomplete': {
    severity: 'warning',
    message: 'The answer to batch {batch} ends before it is complete; {count} of its lines were read.',
    remedy: 'Get the whole answer and reconcile again: what was read is kept.',
    basis: COMMON_PRACTICE,
  },
  'registry.answer-unreadable': {
    severity: 'error',
    message: 'Line {line} of the answer cannot be read: {why}',
    remedy: 'Get the answer again; the other lines were read.',
    basis: COMMON_PRACTICE,
  },
  'registry.waits-for-answer': {
    severity: 'warning',
    message:
      "Case {case}: the entry of device '{device}' changed, and waits until the registry has answered on the version before.",
    remedy: 'casetally registry reconcile, once the answer is there; then send again.',
    basis: COMMON_PRACTICE,
  },
  'registry.not-mended': {
    severity: 'error',
    message:
      "Case {case}: the registry refused the entry of device '{device}' ({code}), and its record has not changed since.",
    remedy:
      'Mend what the registry names; or, where the registry erred, casetally registry resend --refused.',
    basis: COMMON_PRACTICE,
  },
});
