import { COMMON_PRACTICE, define, RECORD_FORMAT } from '../define.js';

const LOCAL = 'local policy: intake.olderThan of the site configuration';
const COUNT = 'common practice, no source: what is put on the table is counted out';

/** Wording about values that sources give to a record. */
export const intakeWording = define({
  'intake.disagrees': {
    severity: 'error',
    message: '{place} differs: {sides}. It was left as it is.',
    remedy: 'Look which is right and write that; what was typed stays until you change it.',
    basis: COMMON_PRACTICE,
  },
  'intake.other-patient': {
    severity: 'error',
    message:
      '{source} is about another patient or case: {what} is {theirs} there and {ours} in {against}. Nothing was taken from it.',
    remedy: 'Check whom it belongs to. If the record is wrong, correct it and bring the source in again.',
    basis: COMMON_PRACTICE,
  },
  'intake.patient-unconfirmed': {
    severity: 'warning',
    message: 'Nothing that {source} says of the patient or case can be compared with the record: {theirs}.',
    remedy: 'Compare it yourself, and add what is missing to the record.',
    basis: COMMON_PRACTICE,
  },
  'intake.too-old': {
    severity: 'information',
    message:
      '{place} from {source} is of {at}, more than {limit} before the case. It was proposed and not filled in.',
    remedy:
      'Take it over if it still holds, or measure again. The limit is intake.olderThan of the site, a local policy.',
    basis: LOCAL,
  },
  'intake.placed-later': {
    severity: 'error',
    message: '{device} from {source} was placed on {date}, after the case ({day}). It was not taken.',
    remedy: 'Check whether this is the right earlier case, and whether case.date is right.',
    basis: COMMON_PRACTICE,
  },
  'intake.placed-here': {
    severity: 'error',
    message: '{device} from {source} was placed in this case itself. It was not taken.',
    remedy: 'Bring in the case before this one, or correct case.id.',
    basis: COMMON_PRACTICE,
  },
  'intake.renewed': {
    severity: 'information',
    message: '{place} was renewed from {source}: {was} became {is}.',
    remedy: 'If a person had corrected the old value, write it again and take its line out of sources.',
    basis: RECORD_FORMAT,
  },
  'intake.entry-there': {
    severity: 'information',
    message: '{place} is in the record already. {fields} from {source} was not added to it.',
    remedy: 'Add it by hand if it is the same one; else give the other one another key.',
    basis: RECORD_FORMAT,
  },
  'intake.key-twice': {
    severity: 'error',
    message:
      '{place} stands in two kits: {sources}. Only one entry can have that key, so the record does not say that both are on the table.',
    remedy:
      'Give it another key in one of the kits, or write the second one into the record under a key of its own.',
    basis: RECORD_FORMAT,
  },
  'intake.not-a-field': {
    severity: 'error',
    message:
      '{source} gives a value for {place}, which is no field of a record that one value can be put into.',
    remedy: 'Correct the source, or write the value into the right field by hand.',
    basis: RECORD_FORMAT,
  },
  'intake.not-a-value': {
    severity: 'error',
    message:
      'What {source} gives for {place} cannot stand in a record: it is empty, too long, or has characters that nobody can see.',
    remedy: 'Correct the source, or write the value by hand.',
    basis: RECORD_FORMAT,
  },
  'intake.not-written': {
    severity: 'error',
    message:
      'The values could not be put into this file so that it reads back as meant. It was left as it is.',
    remedy:
      'Write them by hand, or bring the file into a plainer form (no anchors, no doubled keys) and try again.',
    basis: RECORD_FORMAT,
  },
  'intake.kit-other-kind': {
    severity: 'warning',
    message: '{source} is for {kinds}; the case is {kind}.',
    remedy: 'Check that it is the right kit.',
    basis: RECORD_FORMAT,
  },
  'intake.kit-device-open': {
    severity: 'error',
    message: '{device} came to the table with {source}, and nothing says what became of it.',
    remedy:
      'Add its events, or write use: unopened, opened unused or failed in devices.{key}; use: used for what never goes in.',
    basis: COUNT,
  },
});
