import { define } from '../define.js';

const R4_CONCURRENCY =
  'FHIR R4, RESTful API, version aware updates: https://hl7.org/fhir/R4/http.html#concurrency';

/** Wording of what two have written, or what was changed in the outbox. */
export const deliveryConflictsWording = define({
  'delivery.conflict': {
    severity: 'error',
    message: '{destination} holds another state of this case ({status}); it was not overwritten.',
    remedy: 'Compare the two states, listed below field by field, each with the ways on.',
    basis: R4_CONCURRENCY,
  },
  'delivery.item-unreadable': {
    severity: 'error',
    message: 'What the outbox keeps of item {id} was changed or cut: it cannot be sent.',
    remedy:
      'Send the case again from its record; then casetally outbox discard {id}. casetally outbox doctor looks through the rest.',
    basis: 'the seal of the outbox',
  },
  'delivery.written-at-once': {
    severity: 'warning',
    message:
      '{destination} was writing something of this case for somebody else at that moment, such as the patient of another case ({status}); nothing of it was changed.',
    remedy: 'It is sent again by itself.',
    basis: R4_CONCURRENCY,
  },
  'delivery.edited-there': {
    severity: 'error',
    message: '{address} was edited there: {element} is {held}; this version of the record has {sent}.',
    remedy:
      'Take theirs: enter it in the record for the next version, and casetally outbox discard ITEM. Overwrite theirs: casetally outbox retry ITEM --overwrite --by NAME --why TEXT.',
    basis: R4_CONCURRENCY,
  },
  'delivery.held-otherwise': {
    severity: 'error',
    message: '{address} is there already: {element} is {held}; this record has {sent}.',
    remedy:
      'Take theirs: correct the record, and casetally outbox discard ITEM. Replace theirs: send the record as a new version (report.status amended, a higher version).',
    basis: R4_CONCURRENCY,
  },
});
