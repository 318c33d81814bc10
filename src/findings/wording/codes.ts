import { define } from '../define.js';

const FORMAT = 'the format of the list of codes';

/** Wording of the findings about a site's own list of codes and about what a terminology server says of it. */
export const codesWording = define({
  'codes.not-text': {
    severity: 'error',
    message: 'The list of codes is not UTF-8 text: {problem}.',
    remedy: "Save it from the spreadsheet as 'CSV UTF-8'.",
    basis: FORMAT,
  },
  'codes.column-missing': {
    severity: 'error',
    message: 'The list of codes has no column {column}; its first line has {found}.',
    remedy: 'Name the columns in the first line: what, text, system, code, display.',
    basis: FORMAT,
  },
  'codes.unreadable': {
    severity: 'error',
    message: 'Line {line} of the list of codes cannot be read: {problem}.',
    remedy: 'Correct that line; quotes around a text must be closed.',
    basis: FORMAT,
  },
  'codes.value': {
    severity: 'error',
    message: 'Line {line} of the list of codes: {column} is {found}; {expected} expected.',
    remedy: 'Correct that line.',
    basis: FORMAT,
  },
  'codes.rounded': {
    severity: 'error',
    message: 'Line {line} of the list of codes: a spreadsheet has turned the code into the number {found}.',
    remedy: 'Format the column as text, and type the code again: its last digits are lost.',
    basis: FORMAT,
  },
  'codes.check-digit': {
    severity: 'error',
    message: 'Line {line} of the list of codes: {code} is no code of {system}: {problem}.',
    remedy:
      'Compare it with where it was copied from; spreadsheets turn digits after the fifteenth into zeros.',
    basis: "SNOMED CT Release File Specifications (Verhoeff); LOINC Users' Guide (modulus 10)",
  },
  'codes.twice': {
    severity: 'error',
    message:
      "Line {line} of the list of codes gives '{text}' the code {code}; line {first} gives it {other}.",
    remedy: 'Keep one code of a code system for a text, or tell the two apart in the column what.',
    basis: FORMAT,
  },
  'codes.more': {
    severity: 'error',
    message: 'The list of codes has {count} further faults.',
    remedy: 'Correct those above first.',
    basis: FORMAT,
  },
  'codes.not-known': {
    severity: 'warning',
    message: "The terminology server does not know {code} of {system}, which the site gives '{text}'.",
    remedy: 'Correct the code, or ask which edition the server has.',
    basis: 'FHIR R4 CodeSystem/$validate-code',
  },
  'codes.named-otherwise': {
    severity: 'warning',
    message: "The terminology server calls {code} '{display}'; the site gives it to '{text}' as '{found}'.",
    remedy: 'See whether the two mean the same, and correct the code or the display.',
    basis: 'FHIR R4 CodeSystem/$lookup',
  },
  'codes.server-believes-all': {
    severity: 'warning',
    message:
      'The terminology server says that {system} has a code {code}, which cannot be: its answers about {system} are not used.',
    remedy: 'Ask those who run it whether it holds that code system.',
    basis: 'FHIR R4 CodeSystem/$validate-code',
  },
  'codes.server': {
    severity: 'warning',
    message: 'The terminology server gave no answer to {operation} for {code}: {problem}.',
    remedy: 'Check its address, and whether it has that operation.',
    basis: 'FHIR R4 terminology service',
  },
});
