import { COMMON_PRACTICE, define } from '../define.js';

/** Wording of what there is to say of an order that a record begins with. */
export const intakeOrderWording = define({
  'intake.order-not-found': {
    severity: 'error',
    message: '{destination} has no order, accession or encounter with the number {number}.',
    remedy: 'Look at the number; where several systems number orders, write SYSTEM|NUMBER.',
    basis: COMMON_PRACTICE,
  },
  'intake.order-several': {
    severity: 'error',
    message: '{number} is the number of several orders at {destination}: {orders}. None was taken.',
    remedy: 'Name the one that is meant, as SYSTEM|NUMBER.',
    basis: COMMON_PRACTICE,
  },
  'intake.order-void': {
    severity: 'error',
    message: '{destination} has order {number} as entered in error.',
    remedy: 'Ask whoever placed the order.',
    basis: COMMON_PRACTICE,
  },
  'intake.order-called-off': {
    severity: 'warning',
    message: 'The {what} of {number} is {status} at {destination}.',
    remedy: 'Ask whoever placed the order whether the case is still wanted.',
    basis: COMMON_PRACTICE,
  },
  'intake.order-without-patient': {
    severity: 'error',
    message: 'Order {number} names no patient that {destination} gives.',
    remedy: 'Look for the patient of the order at the record system.',
    basis: COMMON_PRACTICE,
  },
  'intake.of-other-patient': {
    severity: 'warning',
    message:
      '{destination} gave {count} of {what} that belong to another patient, or name none; they were passed over.',
    remedy: 'Tell whoever looks after the server: it does not search by patient as it was asked to.',
    basis: COMMON_PRACTICE,
  },
  'intake.not-answered': {
    severity: 'warning',
    message: '{destination} gave no {what}: {why}. Nothing is said of them in the record.',
    remedy: 'Look them up in the record system, and write down what is there.',
    basis: COMMON_PRACTICE,
  },
  'intake.more-there': {
    severity: 'warning',
    message: '{destination} has more {what} than were read.',
    remedy: 'Look in the record system for what is missing here.',
    basis: COMMON_PRACTICE,
  },
  'intake.not-taken': {
    severity: 'information',
    message: '{what}: {count} not taken over: {why}.',
    remedy: 'Write it down by hand where it matters to the case.',
    basis: COMMON_PRACTICE,
  },
});
