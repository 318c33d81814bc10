import { define, RECORD_FORMAT } from '../define.js';

const FORMAT = 'bounds of a response to the form';

/** Wording of the findings about a response to the form of the record. */
export const formWording = define({
  'form.too-big': {
    severity: 'fatal',
    message: 'The response has {size} bytes; up to {limit} are read.',
    remedy: 'Send the answers alone, without attachments.',
    basis: FORMAT,
  },
  'form.too-many': {
    severity: 'fatal',
    message: 'The response has {count} objects and lists; up to {limit} are read.',
    remedy: 'Check whether items were repeated by mistake.',
    basis: FORMAT,
  },
  'form.too-deep': {
    severity: 'fatal',
    message: 'The response is nested more than {limit} levels deep.',
    remedy: 'Send the items as the form nests them.',
    basis: FORMAT,
  },
  'form.not-json': {
    severity: 'fatal',
    message: 'The response cannot be read as JSON: {problem}.',
    remedy: 'Send the QuestionnaireResponse as FHIR JSON.',
    basis: 'RFC 8259',
  },
  'form.twice-in-json': {
    severity: 'fatal',
    message: 'An object of the response has the member {name} twice.',
    remedy: 'Correct the program that writes the response: one of the two would be lost.',
    basis: 'RFC 8259',
  },
  'form.not-a-response': {
    severity: 'fatal',
    message: 'This is not a QuestionnaireResponse: resourceType is {found}.',
    remedy: 'Send one QuestionnaireResponse, not a Bundle or another resource.',
    basis: 'FHIR R4, QuestionnaireResponse',
  },
  'form.not-understood': {
    severity: 'error',
    message:
      '{element} may change the meaning of the answers, and Casetally does not understand it: {value}.',
    remedy: 'Send the response without {element}.',
    basis: 'FHIR R4, modifier extensions and implicitRules',
  },
  'form.entered-in-error': {
    severity: 'error',
    message: 'The response was entered in error: no record is made of it.',
    remedy: 'Fill in the form anew, under the right patient and case.',
    basis: 'FHIR R4, QuestionnaireResponse.status',
  },
  'form.other-questionnaire': {
    severity: 'error',
    message: 'The response answers another form: {found}.',
    remedy: 'Fill in {expected}; to print it, run casetally questionnaire.',
    basis: 'FHIR R4, QuestionnaireResponse',
  },
  'form.no-questionnaire': {
    severity: 'warning',
    message: 'The response does not say which form it answers.',
    remedy: 'Set questionnaire to {expected}.',
    basis: 'FHIR R4, QuestionnaireResponse',
  },
  'form.other-version': {
    severity: 'information',
    message: 'The response was made with version {found} of the form; this is version {expected}.',
    remedy: 'Fetch the form again when Casetally is updated.',
    basis: 'FHIR R4, QuestionnaireResponse',
  },
  'form.not-completed': {
    severity: 'error',
    message: 'The form was not completed: status is {status}.',
    remedy: 'Complete the form and send it with status completed; until then its values are proposals.',
    basis: 'FHIR R4, QuestionnaireResponse.status',
  },
  'form.no-date': {
    severity: 'warning',
    message: 'The response does not say when it was made: authored is {found}.',
    remedy: 'Set authored to a date and time with an offset, such as 2024-03-14T10:05:00+00:00.',
    basis: 'FHIR R4, QuestionnaireResponse',
  },
  'form.unknown-item': {
    severity: 'error',
    message: 'The form has no item {linkId}; not in the record: {value}.',
    remedy: 'Use a link id of the form, or leave the item out.',
    basis: 'FHIR R4, QuestionnaireResponse',
  },
  'form.misplaced': {
    severity: 'error',
    message: 'Item {linkId} is not where the form has it; not in the record: {value}.',
    remedy: 'Put it within {group}, as the form nests it.',
    basis: 'FHIR R4, QuestionnaireResponse',
  },
  'form.twice': {
    severity: 'error',
    message: '{linkId} is answered more than once and may be answered once; not in the record: {value}.',
    remedy: 'Keep the answer that is right.',
    basis: 'FHIR R4, QuestionnaireResponse',
  },
  'form.wrong-type': {
    severity: 'error',
    message: '{linkId} is answered with {found}; {expected} expected. Not in the record: {value}.',
    remedy: 'Send the answer as {expected}.',
    basis: 'FHIR R4, QuestionnaireResponse',
  },
  'form.not-a-choice': {
    severity: 'error',
    message: '{linkId} has no choice {value}; it is not in the record.',
    remedy: 'Choose one of these codes, without a system: {allowed}.',
    basis: 'FHIR R4, QuestionnaireResponse',
  },
  'form.part-left-out': {
    severity: 'warning',
    message: 'Of the code in {linkId}, {parts} is not in the record: {value}.',
    remedy: 'No action needed unless the code depends on it; then write it into a note.',
    basis: 'FHIR R4, QuestionnaireResponse',
  },
  'form.no-key': {
    severity: 'error',
    message: 'An entry has no answer to {linkId}, so nothing can refer to it; not in the record: {value}.',
    remedy: 'Answer {linkId} with a short name, such as drain or wire1.',
    basis: RECORD_FORMAT,
  },
  'form.bad-key': {
    severity: 'error',
    message: '{linkId} cannot be {key}: it is taken already, or reserved. Not in the record: {value}.',
    remedy: 'Give each entry a short name of its own.',
    basis: RECORD_FORMAT,
  },
  'form.contradiction': {
    severity: 'error',
    message:
      '{linkId} and {other} are both answered, and only one of them can hold; not in the record: {value}.',
    remedy: 'Take the wrong answer out.',
    basis: RECORD_FORMAT,
  },
  'form.other-subject': {
    severity: 'error',
    message: 'The response is about {said} ({element}), and {linkId} is answered with {answered}.',
    remedy:
      'Find out which is right before anything is sent: the form may be under the wrong patient or case.',
    basis: 'FHIR R4, QuestionnaireResponse',
  },
  'form.more': {
    severity: 'error',
    message: 'There are {count} further findings about the response.',
    remedy: 'Correct those above first.',
    basis: FORMAT,
  },
  'form.not-answered': {
    severity: 'error',
    message: '{value} is more than a whole number in FHIR can be ({limit}), so it is not in the response.',
    remedy: 'Correct the number.',
    basis: 'FHIR R4, QuestionnaireResponse',
  },
});
