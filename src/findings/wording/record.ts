import { define, RECORD_FORMAT } from '../define.js';

/** Wording of the findings about reading a case record. */
export const recordWording = define({
  'record.not-text': {
    severity: 'fatal',
    message: 'The file is not UTF-8 text: byte {byte} cannot be read.',
    remedy: 'Save the file as UTF-8.',
    basis: RECORD_FORMAT,
  },
  'record.too-big': {
    severity: 'fatal',
    message: 'The file has {size} bytes; a case record may have {limit}.',
    remedy: 'Send one case a file, and keep pictures and documents out of it.',
    basis: RECORD_FORMAT,
  },
  'record.too-deep': {
    severity: 'fatal',
    message: 'The file is nested more than {limit} levels deep.',
    remedy: 'No case needs this: look for brackets that are not closed.',
    basis: RECORD_FORMAT,
  },
  'record.too-many': {
    severity: 'fatal',
    message: 'The file holds more than {limit} values.',
    remedy: 'Send one case a file.',
    basis: RECORD_FORMAT,
  },
  'record.control-character': {
    severity: 'error',
    message: 'The text holds the character {character}, which no screen or printer shows.',
    remedy: 'Take it out; in a label write the group separator as \\x1D inside double quotes.',
    basis: 'YAML 1.2.2, section 5.1; FHIR R4 string',
  },
  'record.not-yaml': {
    severity: 'fatal',
    message: 'This is not YAML or JSON that can be read: {why}',
    remedy: 'Mend the line named here; often a quote, bracket or indent is missing just before it.',
    basis: 'YAML 1.2.2; RFC 8259',
  },
  'record.duplicate-key': {
    severity: 'fatal',
    message: "The key '{key}' stands twice in the same place.",
    remedy: 'Keep one of them, or give the second another name.',
    basis: 'YAML 1.2.2, section 3.2.1.3: keys are unique',
  },
  'record.alias': {
    severity: 'fatal',
    message: "'{what}' is a YAML anchor, alias, merge or tag; a case record has none.",
    remedy: 'Write the value out where it is used; put quotes around text that starts with & * or !.',
    basis: RECORD_FORMAT,
  },
  'record.forbidden-key': {
    severity: 'fatal',
    message: "The key '{key}' is not allowed anywhere.",
    remedy: 'Give it another name.',
    basis: RECORD_FORMAT,
  },
  'record.not-a-case': {
    severity: 'fatal',
    message: 'The file holds {what}, not a case record.',
    remedy: "A case record starts with 'casetally: 1' and has case, patient, team, indication and report.",
    basis: RECORD_FORMAT,
  },
  'record.empty-value': {
    severity: 'error',
    message: "'{key}' has no value.",
    remedy: "Leave the line out when nothing was recorded; write 'none' where none was found.",
    basis: RECORD_FORMAT,
  },
  'record.unknown-key': {
    severity: 'error',
    message: "'{key}' is not a field here.",
    remedy: '{suggestion}',
    basis: RECORD_FORMAT,
  },
  'record.missing': {
    severity: 'error',
    message: "'{key}' is missing; expected {expected}.",
    remedy: "Add '{key}'.",
    basis: RECORD_FORMAT,
  },
  'record.wrong-type': {
    severity: 'error',
    message: 'Expected {expected}, found {found}.',
    remedy: 'Write {expected}.',
    basis: RECORD_FORMAT,
  },
  'record.not-one-of': {
    severity: 'error',
    message: "'{found}' is not one of: {allowed}.",
    remedy: '{suggestion}',
    basis: RECORD_FORMAT,
  },
  'record.bad-text': {
    severity: 'error',
    message: "'{found}' is not {expected}.",
    remedy: 'Write {expected}.',
    basis: RECORD_FORMAT,
  },
  'record.bad-quantity': {
    severity: 'error',
    message: '{why}.',
    remedy: 'Write a number with a unit, such as {example}.',
    basis: RECORD_FORMAT,
  },
  'record.bad-time': {
    severity: 'error',
    message: '{why}.',
    remedy: 'Write 09:04, 2024-03-14T09:04, or with an offset 2024-03-14T09:04+01:00.',
    basis: 'ISO 8601-1; FHIR R4 dateTime',
  },
  'record.time-skipped': {
    severity: 'error',
    message: '{why}.',
    remedy: 'Look at the clock that was read: it had probably not been put forward yet.',
    basis: 'the IANA time zone database',
  },
  'record.time-twice': {
    severity: 'error',
    message: '{why}.',
    remedy: 'Write the offset after the time.',
    basis: 'the IANA time zone database',
  },
  'record.no-time-zone': {
    severity: 'error',
    message: '{why}.',
    remedy: 'Add timeZone to case, such as Europe/Lisbon, or set it in the site configuration.',
    basis: 'FHIR R4 dateTime: a time needs an offset',
  },
  'record.no-date': {
    severity: 'error',
    message: '{why}.',
    remedy: 'Add date to case, YYYY-MM-DD.',
    basis: 'FHIR R4 dateTime: a time needs a date',
  },
  'record.bad-time-zone': {
    severity: 'error',
    message: "'{zone}' is not a time zone name.",
    remedy: 'Write an IANA name such as Europe/Lisbon.',
    basis: 'the IANA time zone database',
  },
  'record.bad-date': {
    severity: 'error',
    message: "'{found}' is not a day of the calendar.",
    remedy: 'Write YYYY-MM-DD.',
    basis: 'ISO 8601-1',
  },
  'record.time-next-day': {
    severity: 'information',
    message:
      '{times} read as the next day, {date}: more than twelve hours before the start of the case ({started}).',
    remedy: 'Write the date in front of a time if another day is meant.',
    basis: RECORD_FORMAT,
  },
  'record.time-day-before': {
    severity: 'information',
    message:
      '{times} read as the day before, {date}: more than eighteen hours after the start of the case ({started}).',
    remedy: 'Write the date in front of a time if another day is meant.',
    basis: RECORD_FORMAT,
  },
  'record.start-missing': {
    severity: 'warning',
    message:
      'Times without a date run from {first} to {last}, and the case has no start: all are read as of {date}, also those that may be of the night before or after.',
    remedy: 'Add case.started, or write the date in front of the times.',
    basis: RECORD_FORMAT,
  },
  'record.unknown-reference': {
    severity: 'error',
    message: "There is no {what} with the key '{key}'.",
    remedy: '{suggestion}',
    basis: RECORD_FORMAT,
  },
  'record.duplicate-member': {
    severity: 'error',
    message: "The key '{key}' is used by two entries of {list}.",
    remedy: 'Give one of them another key.',
    basis: RECORD_FORMAT,
  },
  'record.reason-missing': {
    severity: 'error',
    message: "The case is '{status}' and has no reason.",
    remedy: 'Add case.reason.',
    basis: 'FHIR R4 Procedure.statusReason',
  },
  'record.not-recorded': {
    severity: 'warning',
    message: '{what}: nothing is recorded.',
    remedy: "Record it, or write 'none' if there was none.",
    basis: 'common practice, no source',
  },
  'record.checked-in-part': {
    severity: 'information',
    message: 'Parts of the record could not be read; the rest was checked without them.',
    remedy: 'Mend the errors and check again: more may come to light.',
    basis: RECORD_FORMAT,
  },
  'record.unsigned': {
    severity: 'error',
    message: "The report is '{status}' and has no time of signature.",
    remedy: 'Add report.signedAt, or set report.status to preliminary.',
    basis: 'common practice, no source',
  },
  'record.change-missing': {
    severity: 'error',
    message: "The report is '{status}' and does not say what changed.",
    remedy: 'Add report.change with of, by, at and why.',
    basis: 'FHIR R4 composition-status: amended content is verified again',
  },
  'record.outside-case': {
    severity: 'warning',
    message: 'This event, at {time}, is {side} of the case ({limit}).',
    remedy: 'Mend the time, or case.started and case.ended.',
    basis: RECORD_FORMAT,
  },
  'record.order-of-times': {
    severity: 'error',
    message: '{later} ({laterTime}) is before {earlier} ({earlierTime}).',
    remedy: 'Mend the time that is wrong.',
    basis: RECORD_FORMAT,
  },
});
