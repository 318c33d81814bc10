import { COMMON_PRACTICE, define } from '../define.js';

/** Wording of the findings about working many cases at once. */
export const bulkWording = define({
  'bulk.unread': {
    severity: 'fatal',
    message: 'The file cannot be read: {why}.',
    remedy: 'See to it that it can be read, and give the same command again.',
    basis: COMMON_PRACTICE,
  },
  'bulk.link': {
    severity: 'fatal',
    message: 'This is a link; it is not followed, so that nothing outside the folder is read.',
    remedy: 'Put the file itself here, or name the folder that the link leads to.',
    basis: COMMON_PRACTICE,
  },
  'bulk.no-route': {
    severity: 'error',
    message: 'No route of the site configuration takes this case.',
    remedy: 'Add a route, or name a destination with --to.',
    basis: COMMON_PRACTICE,
  },
  'bulk.too-long': {
    severity: 'fatal',
    message: 'Working this case out took longer than {seconds} s and was ended.',
    remedy: 'Look for what is far more than a case has; or give it more time with --seconds.',
    basis: COMMON_PRACTICE,
  },
  'bulk.too-much-memory': {
    severity: 'fatal',
    message: 'Working this case out took more than {megabytes} MB of memory and was ended.',
    remedy: 'Look for what is far more than a case has.',
    basis: COMMON_PRACTICE,
  },
  'bulk.died': {
    severity: 'fatal',
    message: 'A fault in Casetally itself ended the work on this case.',
    remedy: 'Give the same command again: nothing is stored twice. Where the fault comes again, report it.',
    basis: COMMON_PRACTICE,
  },
  'bulk.cut-off': {
    severity: 'warning',
    message: 'The last line has no line break at its end: the file may have been cut off.',
    remedy: 'Have the file written again if it is not whole.',
    basis: COMMON_PRACTICE,
  },
});
