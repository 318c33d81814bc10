import { COMMON_PRACTICE, define, RECORD_FORMAT } from '../define.js';

/** Wording about drafts: records that are being entered. */
export const draftWording = define({
  'drafts.impossible': {
    severity: 'error',
    message: 'The edit of {place} cannot be made: {why}. No edit of this batch was made.',
    remedy: 'Look at the newest version of the draft, and edit that.',
    basis: RECORD_FORMAT,
  },
  'drafts.too-many': {
    severity: 'error',
    message: 'There are {found} edits; at most {limit} can be made together. None was made.',
    remedy: 'Send them in smaller batches.',
    basis: COMMON_PRACTICE,
  },
  'drafts.no-record': {
    severity: 'error',
    message: 'The text has no fields.',
    remedy: 'Begin it with casetally: 1.',
    basis: RECORD_FORMAT,
  },
  'drafts.not-written': {
    severity: 'error',
    message:
      'The edits could not be put into this text so that it reads back as meant. It was left as it is.',
    remedy:
      'Make the change in the text itself, or bring it into a plainer form (no anchors, no doubled keys) and try again.',
    basis: RECORD_FORMAT,
  },
  'drafts.conflict': {
    severity: 'error',
    message:
      '{place} was changed by two people: {mine} here, {theirs} by somebody else; before, it was {base}.',
    remedy: 'Agree which is right, and set that on the newest version.',
    basis: COMMON_PRACTICE,
  },
});
