import { define } from '../define.js';
import { conformanceBundleWording } from './conformance-bundle.js';

const R4 = 'http://hl7.org/fhir/R4';
const ELEMENT = `${R4}/elementdefinition.html`;
const JSON_FORMAT = `${R4}/json.html`;
const TYPES = `${R4}/datatypes.html`;
const PROFILING = `${R4}/profiling.html`;
const TERMS = `${R4}/terminologies.html`;
const EXTENSIBILITY = `${R4}/extensibility.html`;

/** Wording of the conformance findings; the part after `conformance.` is the rule's id. */
export const conformanceWording = {
  ...conformanceBundleWording,
  ...define({
    'conformance.json-syntax': {
      severity: 'fatal',
      message: 'The text is not JSON: {problem}',
      remedy: 'Mend the JSON at this place; nothing after it was read.',
      basis: 'RFC 8259',
    },
    'conformance.json-too-deep': {
      severity: 'fatal',
      message: 'The JSON is nested more than {limit} levels deep',
      remedy: 'Resources are far flatter; check what wrote this file.',
      basis: 'RFC 8259 section 9',
    },
    'conformance.json-duplicate-key': {
      severity: 'error',
      message: 'The property "{name}" is written twice in one object',
      remedy: 'Keep one of the two.',
      basis: `${JSON_FORMAT} (property names are unique)`,
    },
    'conformance.not-a-resource': {
      severity: 'fatal',
      message: 'Expected a JSON object with a resourceType, found {found}',
      remedy: 'Give one FHIR R4 resource or Bundle as JSON.',
      basis: `${JSON_FORMAT}#resources`,
    },
    'conformance.unknown-type': {
      severity: 'error',
      message: 'There is no R4 resource type "{type}"',
      remedy: 'Correct resourceType; {hint}.',
      basis: `${R4}/resourcelist.html`,
    },
    'conformance.unknown-element': {
      severity: 'error',
      message: '{parent} has no element "{name}"',
      remedy: 'Remove it or correct its spelling; {hint}.',
      basis: `${JSON_FORMAT} and ${EXTENSIBILITY}`,
    },
    'conformance.json-type': {
      severity: 'error',
      message: 'Expected {expected}, found {found}',
      remedy: 'Write the value in the JSON form of its type.',
      basis: JSON_FORMAT,
    },
    'conformance.empty': {
      severity: 'error',
      message: '{what} is empty',
      remedy: 'Leave the element out when it has no content.',
      basis: `${JSON_FORMAT}: no empty objects, arrays or strings; ele-1`,
    },
    'conformance.null-padding': {
      severity: 'error',
      message: '{problem}',
      remedy: 'In a repeating primitive, null stands only where the other array carries the item.',
      basis: `${JSON_FORMAT}#primitive`,
    },
    'conformance.min': {
      severity: 'error',
      message: '{element} is required at least {min} time(s), found {found}',
      remedy: 'Add {element}.',
      basis: `${ELEMENT} (min)`,
    },
    'conformance.max': {
      severity: 'error',
      message: '{element} is allowed at most {max} time(s), found {found}',
      remedy: 'Remove what is too many of {element}.',
      basis: `${ELEMENT} (max)`,
    },
    'conformance.choice-type': {
      severity: 'error',
      message: '{element} may not be of type {found}; allowed: {allowed}',
      remedy: 'Use one of the allowed types.',
      basis: `${ELEMENT} (type)`,
    },
    'conformance.choice-twice': {
      severity: 'error',
      message: '{element} is given in more than one type: {found}',
      remedy: 'Keep one of them.',
      basis: `${R4}/formats.html#choice`,
    },
    'conformance.primitive-format': {
      severity: 'error',
      message: '"{value}" is not a valid {type}: {problem}',
      remedy: 'Write the value as {type} asks.',
      basis: `${TYPES}#primitive`,
    },
    'conformance.length': {
      severity: 'error',
      message: 'The value has {found} characters; at most {max} are allowed',
      remedy: 'Shorten the value.',
      basis: `${ELEMENT} (maxLength)`,
    },
    'conformance.range': {
      severity: 'error',
      message: '{value} is outside the allowed range: {limit}',
      remedy: 'Correct the value.',
      basis: `${ELEMENT} (minValue, maxValue)`,
    },
    'conformance.fixed': {
      severity: 'error',
      message: 'The value must be exactly {expected}, found {found}',
      remedy: 'Write the fixed value.',
      basis: `${ELEMENT} (fixed[x])`,
    },
    'conformance.pattern': {
      severity: 'error',
      message: 'The value must contain {expected}, found {found}',
      remedy: 'Write at least what the pattern holds.',
      basis: `${ELEMENT} (pattern[x])`,
    },
    'conformance.slice-closed': {
      severity: 'error',
      message: 'This item belongs to none of the slices of {element}, and the slicing is closed: {slices}',
      remedy: 'Make the item match a slice or remove it.',
      basis: `${PROFILING}#slicing`,
    },
    'conformance.slice-order': {
      severity: 'error',
      message: 'The item of slice {slice} comes after an item of slice {after}; the slices are ordered',
      remedy: 'Put the items in the order of the slices.',
      basis: `${PROFILING}#slicing`,
    },
    'conformance.slice-end': {
      severity: 'error',
      message: 'An item outside all slices of {element} stands before an item of slice {slice}',
      remedy: 'Put items that match no slice at the end.',
      basis: `${PROFILING}#slicing (openAtEnd)`,
    },
    'conformance.slice-not-checked': {
      severity: 'information',
      message: 'The slicing of {element} was not checked: {reason}',
      remedy: 'Check the slices of this element by eye or with another tool.',
      basis: `${PROFILING}#discriminator`,
    },
    'conformance.profile-not-loaded': {
      severity: 'error',
      message: 'The profile {profile} is not loaded, so nothing was checked against it',
      remedy: 'Load the package that holds it, or correct the address.',
      basis: `${PROFILING}#profile-uses`,
    },
    'conformance.profile-type': {
      severity: 'error',
      message: 'The profile {profile} is for {expected}, not for {found}',
      remedy: 'Claim a profile of this type.',
      basis: `${PROFILING}`,
    },
    'conformance.profile-none': {
      severity: 'error',
      message: 'Conforms to none of the allowed profiles: {profiles}; first reason: {reason}',
      remedy: 'Make it conform to one of them.',
      basis: `${ELEMENT} (type.profile)`,
    },
    'conformance.abstract-type': {
      severity: 'error',
      message: '{type} is abstract and cannot be used for an instance',
      remedy: 'Use a concrete type.',
      basis: `${R4}/structuredefinition.html (abstract)`,
    },
    'conformance.extension-unknown': {
      severity: 'information',
      message:
        'The extension {url} is not defined in the loaded packages; only its base structure was checked',
      remedy: 'Load the package that defines it, if there is one.',
      basis: EXTENSIBILITY,
    },
    'conformance.extension-modifier-unknown': {
      severity: 'warning',
      message: 'The modifier extension {url} is not defined in the loaded packages',
      remedy: 'A modifier must be understood: load the package that defines it.',
      basis: `${EXTENSIBILITY}#modifierExtension`,
    },
    'conformance.extension-modifier': {
      severity: 'error',
      message: 'The extension {url} must be used as {expected}',
      remedy: 'Move it to {expected}.',
      basis: `${EXTENSIBILITY}#modifierExtension`,
    },
    'conformance.extension-context': {
      severity: 'error',
      message: 'The extension {url} is not allowed on {where}; allowed on: {allowed}',
      remedy: 'Use it where its definition allows it.',
      basis: `${R4}/defining-extensions.html#context`,
    },
    'conformance.extension-part': {
      severity: 'error',
      message: 'The extension {extension} has no part "{url}"',
      remedy: 'Use the parts that its definition names.',
      basis: `${EXTENSIBILITY}`,
    },
    'conformance.extension-url': {
      severity: 'error',
      message: 'The extension address "{url}" is not absolute',
      remedy: 'Write the full address of the extension; only parts of a complex extension have short names.',
      basis: EXTENSIBILITY,
    },
    'conformance.binding-required': {
      severity: 'error',
      message: '{found} is not in the required value set {valueSet}',
      remedy: 'Use a code of the value set{hint}.',
      basis: `${TERMS}#required`,
    },
    'conformance.binding-extensible': {
      severity: 'warning',
      message: '{found} is not in the extensible value set {valueSet}',
      remedy: 'Use a code of the value set if one has the meaning{hint}.',
      basis: `${TERMS}#extensible`,
    },
    'conformance.binding-preferred': {
      severity: 'information',
      message: '{found} is not in the preferred value set {valueSet}',
      remedy: 'A code of the value set is preferred{hint}.',
      basis: `${TERMS}#preferred`,
    },
    'conformance.binding-max': {
      severity: 'error',
      message: '{found} is not in the maximum value set {valueSet}',
      remedy: 'Use a code of the value set{hint}.',
      basis: `${R4}/extension-elementdefinition-maxvalueset.html`,
    },
    'conformance.binding-not-checked': {
      severity: 'information',
      message: 'Not checked: whether {found} is in {valueSet} ({reason})',
      remedy: 'Have a terminology server check it, if it matters.',
      basis: TERMS,
    },
    'conformance.code-unknown': {
      severity: 'error',
      message: 'The code system {system} has no code "{code}"',
      remedy: 'Correct the code{hint}.',
      basis: `${TERMS}#code`,
    },
    'conformance.code-display': {
      severity: 'warning',
      message: 'The display "{found}" is not one of the code {code}; it is: {expected}',
      remedy: 'Use the display of the code system, or put your own words into text.',
      basis: `${TYPES}#Coding (display)`,
    },
    'conformance.code-system-value-set': {
      severity: 'error',
      message: 'Coding.system holds the address of a value set: {system}',
      remedy: 'Write the address of the code system.',
      basis: `${TYPES}#Coding (system)`,
    },
    'conformance.code-system-relative': {
      severity: 'error',
      message: 'Coding.system "{system}" is not an absolute address',
      remedy: 'Write the full address of the code system.',
      basis: `${TYPES}#Coding (system)`,
    },
    'conformance.udi-issuer-relative': {
      severity: 'error',
      message: 'The issuer "{issuer}" of the device identifier is not an absolute address',
      remedy: 'Write the address of the issuing agency, such as http://hl7.org/fhir/NamingSystem/gs1-di.',
      basis: `${R4}/device-definitions.html#Device.udiCarrier.issuer`,
    },
    'conformance.code-check-digit': {
      severity: 'warning',
      message: 'The code {code} of {system} is mistyped: {problem}',
      remedy: 'Look the code up again; the number of digits and their order count.',
      basis:
        'SNOMED CT Release File Specifications, check-digit computation; LOINC Users’ Guide, mod 10 check digits',
    },
    'conformance.unit-invalid': {
      severity: 'error',
      message: '"{code}" is not a UCUM unit: {problem}',
      remedy: 'Write the unit in UCUM, for example mm, [Ch], mGy, Gy.cm2.',
      basis: 'https://ucum.org/ucum',
    },
    'conformance.invariant': {
      severity: 'error',
      message: '{key}: {human}',
      remedy: 'Make the rule true: {expression}',
      basis: `${R4}/conformance-rules.html#constraints`,
    },
    'conformance.invariant-not-checked': {
      severity: 'information',
      message: 'The invariant {key} could not be evaluated: {reason}',
      remedy: 'Check by eye: {human}',
      basis: `${R4}/conformance-rules.html#constraints`,
    },
  }),
};
