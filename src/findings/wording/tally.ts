import { COMMON_PRACTICE, define, RECORD_FORMAT } from '../define.js';

const COUNT = 'common practice, no source: everything that goes in is counted out';
const ORDER = 'what has happened, in the order of the recorded times';

/** Wording of the tally findings. */
export const tallyWording = define({
  'device.kind-unknown': {
    severity: 'warning',
    message: "'{kind}' ({device}) is no kind of device that is known here, and no family is given.",
    remedy: '{suggestion}',
    basis: RECORD_FORMAT,
  },
  'device.kind-read': {
    severity: 'information',
    message: "'{kind}' ({device}) is read as '{row}'.",
    remedy: 'Write the kind as it stands in the table, or give its family, if that is not what it was.',
    basis: RECORD_FORMAT,
  },
  'acknowledged.nothing': {
    severity: 'information',
    message: "Nothing here gives the finding '{code}'{about} that the record acknowledges.",
    remedy: 'Take the line out of acknowledged, or mend its code or what it is about.',
    basis: RECORD_FORMAT,
  },
  'acknowledged.error': {
    severity: 'warning',
    message: "The record acknowledges '{code}'{about}, which is an error: only warnings can be acknowledged.",
    remedy: 'Mend what the error names.',
    basis: RECORD_FORMAT,
  },
  'tally.no-device': {
    severity: 'error',
    message: "The event '{verb}' at {time} does not say which device.",
    remedy: 'Add device with its key.',
    basis: RECORD_FORMAT,
  },
  'tally.not-inserted': {
    severity: 'error',
    message: '{device} is {done} at {time}, but nothing before says that it went in.',
    remedy: 'Add the insertion, or mend the time or the key; say carried if an earlier case placed it.',
    basis: ORDER,
  },
  'tally.already-out': {
    severity: 'error',
    message: '{device} is {done} at {time}, but it came out at {earlier}.',
    remedy: 'Take one of the two events out, mend a time, or add that it went in again.',
    basis: ORDER,
  },
  'tally.inserted-twice': {
    severity: 'error',
    message:
      '{device} is inserted at {time}, but it is inside since {earlier} and its removal is not recorded.',
    remedy: 'Add the removal between the two, or give the second device an entry of its own.',
    basis: ORDER,
  },
  'tally.over-not-inside': {
    severity: 'error',
    message: '{device} is {done} over {other} at {time}, but {other} {where}.',
    remedy: 'Name what it ran over, or mend the order of the events.',
    basis: ORDER,
  },
  'tally.no-wire': {
    severity: 'error',
    message: 'At {time} {device} is exchanged over {other}, but {other} {where}: no wire held the way.',
    remedy: 'Name the wire that was across, add its insertion, or mend the times.',
    basis: ORDER,
  },
  'tally.through-not-inside': {
    severity: 'error',
    message: '{device} is {done} through {other} at {time}, but {other} {where}.',
    remedy: 'Name what it ran through, or mend the order of the events.',
    basis: ORDER,
  },
  'tally.lumen-taken': {
    severity: 'error',
    message:
      'At {time} {device} goes through {host} beside {other}: together {both}, the lumen takes {lumen}; only one fits.',
    remedy: 'Add the removal of {other} before that, or say that one runs over the other.',
    basis: 'geometry: two circles side by side need the sum of their diameters',
  },
  'tally.exchange-unsaid': {
    severity: 'error',
    message: 'At {time} {device} is exchanged in, but nothing says what came out.',
    remedy: 'Add replaces with the key of the device that came out, or write insert.',
    basis: COUNT,
  },
  'tally.not-inflated': {
    severity: 'error',
    message: '{device} is deflated at {time}, but nothing before says that it was inflated.',
    remedy: 'Add the inflation, or mend the times.',
    basis: ORDER,
  },
  'tally.removed-inflated': {
    severity: 'warning',
    message: '{device} comes out at {time} and its deflation is not recorded.',
    remedy: 'Add the deflation.',
    basis: COMMON_PRACTICE,
  },
  'tally.removed-locked': {
    severity: 'warning',
    message: '{device} comes out at {time} and its loop was locked; unlocking is not recorded.',
    remedy: 'Add unlock, or cut if the thread was cut.',
    basis: COMMON_PRACTICE,
  },
  'tally.thread-undeclared': {
    severity: 'warning',
    message:
      '{device} is {done} at {time} and no retention thread is declared among its parts, so none is followed.',
    remedy: 'Add the thread to parts and say what became of it, or acknowledge that there is none.',
    basis: COMMON_PRACTICE,
  },
  'tally.discarded-inside': {
    severity: 'error',
    message:
      '{device} is discarded at {time} as unused, but {inside} is inside and no more are left to discard.',
    remedy: 'Add the removal before it, or mend the count.',
    basis: COUNT,
  },
  'tally.count-over': {
    severity: 'error',
    message: '{number} of {device} are {done} at {time}, but only {there} can be.',
    remedy: 'Mend count in the event or in the device.',
    basis: COUNT,
  },
  'tally.count-differs': {
    severity: 'error',
    message:
      '{number} of {device} are counted at {time}; by the events {inside} are inside and {outside} outside.',
    remedy: 'Count again; mend count in the events or in the device.',
    basis: COUNT,
  },
  'tally.count-removed': {
    severity: 'error',
    message: '{number} of {device} come out at {time}, but only {inside} are inside.',
    remedy: 'Mend the counts of what went in and what came out.',
    basis: COUNT,
  },
  'tally.count-unaccounted': {
    severity: 'error',
    message: 'No event says what became of {number} of the {total} of {device}.',
    remedy: 'Add count to the events that put them in, or an event discard or count for the rest.',
    basis: COUNT,
  },
  'tally.no-events': {
    severity: 'error',
    message: '{device} counts as used, and no event says that it went in or was thrown away.',
    remedy: 'Add the events, or set use to opened unused, unopened or failed.',
    basis: COUNT,
  },
  'tally.unused-but-used': {
    severity: 'error',
    message: "{device} is '{use}', but {where}.",
    remedy: 'Mend use, or the key in the event.',
    basis: COUNT,
  },
  'tally.unaccounted': {
    severity: 'error',
    message: "{device} went in at {time}; no removal is recorded and 'left' does not name it.",
    remedy:
      "Look whether it came out: add {removal}, or list {key} in 'left' with purpose temporary or unintended, and until. To withdraw is to pull back, not to remove.",
    basis: COUNT,
  },
  'tally.part-unaccounted': {
    severity: 'error',
    message: '{part}: {why}; nothing says that it came out or was knowingly left.',
    remedy:
      "Add an event remove with device {device} and part {key}, or list the part in 'left' with purpose temporary or unintended, and until.",
    basis: COUNT,
  },
  'tally.pieces': {
    severity: 'error',
    message: '{device} is in {pieces} pieces since {time}, and {missing} of them is not accounted for.',
    remedy:
      'Declare each piece among parts (kind fragment) and say what became of it, or give pieces in the removal that brought several.',
    basis: COUNT,
  },
  'tally.fragment-unbroken': {
    severity: 'error',
    message: '{part}: no event before {time} says that it was cut or broke off.',
    remedy: 'Add the event cut or fracture, or take the part out of the list.',
    basis: COUNT,
  },
  'tally.missing-part-unsaid': {
    severity: 'error',
    message: '{device} came out at {time} with a part missing, and nothing says which part or where it is.',
    remedy: "Declare the part among parts and say what became of it: removed, lost, or named in 'left'.",
    basis: COUNT,
  },
  'tally.damaged': {
    severity: 'warning',
    message: '{device} came out damaged at {time}; the record does not say that it was complete.',
    remedy: 'Write part missing if something is missing, or acknowledge that it was complete.',
    basis: COMMON_PRACTICE,
  },
  'tally.left-removed': {
    severity: 'error',
    message: "'left' names {what}, but it came out at {time}.",
    remedy: "Take it out of 'left', or mend the event that removed it.",
    basis: COUNT,
  },
  'tally.left-never-in': {
    severity: 'error',
    message: "'left' names {what}, but no event says that it went in.",
    remedy: "Take it out of 'left', add the insertion, or say carried if an earlier case placed it.",
    basis: COUNT,
  },
  'tally.left-count': {
    severity: 'error',
    message: "'left' says that {said} of {what} stay; by the events it is {number}.",
    remedy: 'Count them on the last image, then mend the number or the events.',
    basis: COMMON_PRACTICE,
  },
  'tally.left-count-missing': {
    severity: 'warning',
    message: '{what}: {number} stay by the events, and the line under left gives no count.',
    remedy: 'Add count to that line, so that the number is said twice.',
    basis: COMMON_PRACTICE,
  },
  'tally.left-twice': {
    severity: 'error',
    message: "'left' speaks of {what} twice; the first is {first}.",
    remedy: 'Keep one of the two lines.',
    basis: RECORD_FORMAT,
  },
  'tally.purpose-missing': {
    severity: 'error',
    message: "'left' names {what}, which is not made to stay, without saying whether it is meant to.",
    remedy: 'Add purpose: temporary, intended or unintended.',
    basis: COUNT,
  },
  'tally.no-condition': {
    severity: 'warning',
    message: '{what} stays for a time, and nothing says when or on what condition it comes out.',
    remedy: 'Add until or latest in left, or an aftercare item for it.',
    basis: COMMON_PRACTICE,
  },
  'tally.retained': {
    severity: 'warning',
    message: '{what} stays in the patient against intention.',
    remedy:
      'Say under complications what was done about it and in advice what the patient was told, and acknowledge this line.',
    basis: COMMON_PRACTICE,
  },
  'tally.retained-unsaid': {
    severity: 'error',
    message: "{what} was lost at {time} and did not come out, and 'left' does not name it.",
    remedy: "List it in 'left' with purpose unintended, site and until.",
    basis: COUNT,
  },
  'tally.carried-unsaid': {
    severity: 'error',
    message: "{device} was in before the case; no removal is recorded and 'left' does not name it.",
    remedy: "If it stays, list {key} in 'left' with until or latest; if it came out, add {removal}.",
    basis: COUNT,
  },
  'tally.carried-case': {
    severity: 'warning',
    message: '{device} was placed in an earlier case, and the record does not say which.',
    remedy: "Add the earlier case's identifier under carried, so that its entry can be closed.",
    basis: COMMON_PRACTICE,
  },
});
