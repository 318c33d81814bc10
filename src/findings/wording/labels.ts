import { COMMON_PRACTICE, define } from '../define.js';

const GS1 = 'GS1 General Specifications; GS1 Barcode Syntax Dictionary';
const HIBC = 'HIBC Supplier Labeling Standard (ANSI/HIBC 2.6)';
const ISBT = 'ISBT 128 coding of medical devices (ICCBBA ST-017)';

/** Wording of the findings about labels, what they say together, and the device catalogue. */
export const labelWording = define({
  'label.not-a-label': {
    severity: 'error',
    message:
      'This is no device label: it starts with {found}; a label starts with ( or digits (GS1), + (HIBC) or = (ISBT 128).',
    remedy: 'Scan the label again, or type it as it is printed, brackets included.',
    basis: 'IMDRF UDI application guide (UDI WG/N48), appendix A',
  },
  'label.too-long': {
    severity: 'error',
    message: 'The text has {found} characters; a label has at most {limit}.',
    remedy: 'Give one label at a time.',
    basis: COMMON_PRACTICE,
  },
  'label.symbology': {
    severity: 'warning',
    message: 'The symbology prefix {found} is not one that GS1 data comes with (]C1, ]d2, ]Q3, ]e0, ]J1).',
    remedy: 'Check that the whole symbol was scanned, and the right one on the package.',
    basis: GS1,
  },
  'label.symbology-unknown': {
    severity: 'error',
    message: 'Characters 1 to 3, {found}, are no symbology prefix that scanners send.',
    remedy: 'Scan the label again.',
    basis: 'ISO/IEC 15424 symbology identifiers',
  },
  'label.unknown-identifier': {
    severity: 'error',
    message: 'At character {at}, {found} is no GS1 application identifier.',
    remedy: 'Compare the two to four digits with the label; scan again if they were scanned.',
    basis: GS1,
  },
  'label.bracket': {
    severity: 'error',
    message: 'In the {what} a bracket of an application identifier seems damaged at character {at}: {found}.',
    remedy: 'Write each application identifier in brackets, for example (10).',
    basis: GS1,
  },
  'label.brackets-in-scan': {
    severity: 'warning',
    message: 'The scanned data itself holds brackets; only the print should have them.',
    remedy: 'The label was read as printed; tell its maker or whoever set the scanner up.',
    basis: GS1,
  },
  'label.length': {
    severity: 'error',
    message: 'Characters in the {what} at character {at}: {found}; {expected} expected.',
    remedy: 'Compare it with the label; scan again if it was scanned.',
    basis: 'the standard of the issuing agency',
  },
  'label.character': {
    severity: 'error',
    message: 'The {what} holds {found} at character {at}; {expected} expected.',
    remedy: 'Compare that character with the label; scan again if it was scanned.',
    basis: 'the standard of the issuing agency',
  },
  'label.spaces': {
    severity: 'information',
    message: 'Spaces inside the {what} at character {at} were left out.',
    remedy: 'None needed if the digits are right.',
    basis: COMMON_PRACTICE,
  },
  'label.check-digit': {
    severity: 'error',
    message: 'The check digit of the {what} at character {at} is {found}; its other digits give {expected}.',
    remedy: 'Compare all digits with the label; one of them is wrong, or the label was printed wrong.',
    basis: GS1,
  },
  'label.check-character': {
    severity: 'error',
    message: 'The check character at character {at} is {found}; the characters before it give {expected}.',
    remedy:
      'Compare all characters with the label; one is wrong or missing. A check character that is a space is typed as _.',
    basis: HIBC,
  },
  'label.check-character-space': {
    severity: 'warning',
    message:
      'The check character at character {at} is {found}; the characters before it give {expected}, and {found} if one space was lost among them.',
    remedy: 'Compare all characters with the label; a space is lost where a long label is broken over lines.',
    basis: HIBC,
  },
  'label.check-character-missing': {
    severity: 'warning',
    message:
      'The label ends at character {at} without its check character ({expected}); nothing proves the rest.',
    remedy: 'Compare all characters with the label, or scan it.',
    basis: HIBC,
  },
  'label.trailing-space': {
    severity: 'warning',
    message: 'The label was read without the space at its end (character {at}).',
    remedy: 'None needed if the label has no space there.',
    basis: HIBC,
  },
  'label.asterisk': {
    severity: 'error',
    message:
      'An asterisk stands at one end only, character {at}; they come in pairs around the printed label.',
    remedy: 'Compare both ends with the label.',
    basis: HIBC,
  },
  'label.link-character': {
    severity: 'error',
    message: 'The link character at character {at} is {found}; the primary symbol asks for {expected}.',
    remedy: 'The two symbols belong to different devices, or one was misread: scan both again.',
    basis: HIBC,
  },
  'label.structure': {
    severity: 'error',
    message: 'At character {at}, {found} stands where {expected} is expected.',
    remedy: 'Compare that place with the label; scan again if it was scanned.',
    basis: 'the standard of the issuing agency',
  },
  'label.unusual-character': {
    severity: 'warning',
    message: 'The {what} holds {found} at character {at}; the standard knows only A to Z and 0 to 9 there.',
    remedy: 'Compare that character with the label.',
    basis: HIBC,
  },
  'label.date-flag-missing': {
    severity: 'warning',
    message: 'After the quantity at character {at} no date form is stated; the rest was read as the {what}.',
    remedy: 'Compare it with the label.',
    basis: HIBC,
  },
  'label.provider-code': {
    severity: 'error',
    message:
      'The / at character {at} makes this a code of a hospital (HIBC provider applications), not of a device maker.',
    remedy: "Scan the maker's label.",
    basis: 'HIBC Provider Applications Standard (ANSI/HIBC 1.3)',
  },
  'label.date': {
    severity: 'error',
    message: 'The {what} at character {at} is {found}; there is no such day.',
    remedy: 'Compare it with the label. The other parts of the label were read.',
    basis: 'the calendar; the standard of the issuing agency',
  },
  'label.dates-order': {
    severity: 'error',
    message:
      'The label says made {made} (character {madeAt}) and expired {expires} (character {expiresAt}), which is earlier.',
    remedy: 'Compare both dates with the label.',
    basis: 'the calendar',
  },
  'label.separator-lost': {
    severity: 'warning',
    message:
      'The separator was lost after the {what} at character {at}; only one reading is possible: {reading}.',
    remedy: 'Compare the reading with the label, and set the scanner to transmit the group separator.',
    basis: GS1,
  },
  'label.ambiguous': {
    severity: 'error',
    message:
      'Without separators the {what} at character {at} may end in {count} places; none was chosen: {readings}.',
    remedy: 'Type the label with its brackets, or set the scanner to transmit the group separator.',
    basis: GS1,
  },
  'label.repeated': {
    severity: 'error',
    message: 'The {what} stands twice: {first} and, at character {at}, {second}.',
    remedy: 'Compare both with the label; scan one symbol at a time.',
    basis: GS1,
  },
  'label.needs': {
    severity: 'error',
    message: 'The {what} at character {at} may only stand beside {expected}.',
    remedy:
      'Scan the symbol with the device identifier too; compare the application identifiers with the label.',
    basis: GS1,
  },
  'label.excludes': {
    severity: 'error',
    message: 'The {what} at character {at} may not stand beside {found}.',
    remedy: 'Compare the application identifiers with the label.',
    basis: GS1,
  },
  'label.no-device-identifier': {
    severity: 'error',
    message: 'The label holds no device identifier.',
    remedy:
      'Scan the symbol that holds it (GS1: the one with (01); HIBC: the one that starts with + and a letter).',
    basis: 'IMDRF UDI application guide (UDI WG/N48)',
  },
  'label.bare-number': {
    severity: 'information',
    message:
      'The {found} digits were read as a GS1 trade item number alone, without lot, serial number or expiry.',
    remedy: 'Scan the symbol with the production data too, if the package has one.',
    basis: 'HL7 v2 PRT-10: digits alone are a GS1 device identifier',
  },
  'label.suspect-keyboard': {
    severity: 'warning',
    message: 'The text looks as if it went through {cause}; it may have been meant as {proposal} ({check}).',
    remedy:
      'Compare the proposal with the label and enter it if it is right; set the scanner to the keyboard of the computer.',
    basis: COMMON_PRACTICE,
  },
  'label.serial-zero': {
    severity: 'error',
    message: 'The division code at character {at} is 000000, which the standard forbids.',
    remedy: 'Compare it with the label.',
    basis: ISBT,
  },
  'label.header-count': {
    severity: 'error',
    message: 'The header announces {expected} structures; {found} follow.',
    remedy: 'Scan the label again.',
    basis: ISBT,
  },
  'label.conflict': {
    severity: 'error',
    message: 'For {device} the {what} is {typed} as typed in and {label} on the label.',
    remedy: 'Correct what was typed, or the label text; the label counts until then.',
    basis: 'FHIR R4 Device, UDI mapping: these elements repeat the carrier',
  },
  'label.expired': {
    severity: 'warning',
    message: '{device} expired on {expires}, before the day of the case ({date}).',
    remedy: 'Correct the date or the device; if it was used, say why and report it as your site asks.',
    basis: COMMON_PRACTICE,
  },
  'label.expires-soon': {
    severity: 'information',
    message: '{device} expires on {expires}, within {days} days of the case.',
    remedy: 'Tell whoever keeps the stock.',
    basis: COMMON_PRACTICE,
  },
  'label.serial-twice': {
    severity: 'error',
    message: '{device} and {other} carry the same identifier {di} and serial number {serial}.',
    remedy: 'Scan each device once; delete the entry that was made twice.',
    basis: 'a serial number names one device (IMDRF UDI application guide, UDI WG/N48)',
  },
  'label.serial-other-case': {
    severity: 'warning',
    message: '{device} carries identifier {di} and serial number {serial}, already recorded in case {case}.',
    remedy: 'If it is the same device, say that it comes from that case; otherwise scan it again.',
    basis: 'a serial number names one device (IMDRF UDI application guide, UDI WG/N48)',
  },
  'label.lot-missing': {
    severity: 'warning',
    message: '{device} is an implant and has no lot number{alternative}.',
    remedy: 'Scan the label or type the lot.',
    basis: COMMON_PRACTICE,
  },
  'label.identifier-missing': {
    severity: 'warning',
    message: '{device} stays in the patient and has no device identifier.',
    remedy: 'Scan the label; if it is lost, say so with a reason.',
    basis: COMMON_PRACTICE,
  },
  'catalogue.unreadable': {
    severity: 'error',
    message: 'Line {line} of the device catalogue cannot be read: {problem}.',
    remedy: 'Correct that line; lines after it that could be read were used.',
    basis: 'the device catalogue format',
  },
  'catalogue.column-missing': {
    severity: 'error',
    message: 'The device catalogue has no column {column}.',
    remedy:
      'Name the columns in the first line: di, description, kind, maker, reference, sizes, implant, mri, dwell.',
    basis: 'the device catalogue format',
  },
  'catalogue.value': {
    severity: 'warning',
    message: 'Line {line} of the device catalogue: {column} is {found}; {expected} expected.',
    remedy: 'Correct that line; its other columns were used.',
    basis: 'the device catalogue format',
  },
  'catalogue.identifier': {
    severity: 'error',
    message: 'Line {line} of the device catalogue has {found} as device identifier; {expected} expected.',
    remedy: 'Correct that line; it was left out.',
    basis: 'the standard of the issuing agency',
  },
  'catalogue.repeated': {
    severity: 'warning',
    message:
      'Line {line} of the device catalogue repeats device identifier {di} of line {first} with other details.',
    remedy: 'Keep one of the two lines; the first was used.',
    basis: 'the device catalogue format',
  },
  'catalogue.conflict': {
    severity: 'warning',
    message: 'For {device} the {what} is {recorded} as {source} and {catalogue} in the device catalogue.',
    remedy: 'Correct the entry or the catalogue; what was recorded counts until then.',
    basis: COMMON_PRACTICE,
  },
});
