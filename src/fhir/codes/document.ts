import { hl7, type KnownCode, loinc } from './types.js';

const EX = 'hl7.fhir.r4.examples/';
const THO = 'http://terminology.hl7.org/CodeSystem/';

export const emptyReasons = {
  nilknown: hl7(`${THO}list-empty-reason`, 'nilknown', 'Nil Known', `${EX}CodeSystem-list-empty-reason.json`),
  notasked: hl7(`${THO}list-empty-reason`, 'notasked', 'Not Asked', `${EX}CodeSystem-list-empty-reason.json`),
} as const;

const AGENTS = `${EX}CodeSystem-provenance-agent-type.json`;
export const agentTypes = {
  author: hl7(`${THO}provenance-participant-type`, 'author', 'Author', AGENTS),
  assembler: hl7(`${THO}provenance-participant-type`, 'assembler', 'Assembler', AGENTS),
} as const;

const OPERATION = `${EX}CodeSystem-v3-DataOperation.json`;
export const activities = {
  create: hl7(`${THO}v3-DataOperation`, 'CREATE', 'create', OPERATION),
  update: hl7(`${THO}v3-DataOperation`, 'UPDATE', 'revise', OPERATION),
  append: hl7(`${THO}v3-DataOperation`, 'APPEND', 'append', OPERATION),
  nullify: hl7(`${THO}v3-DataOperation`, 'NULLIFY', 'nullify', OPERATION),
} as const;

/** What a signature stands for: the site's key vouches for where the document comes from, not for its author's consent. */
export const signatureTypes = {
  source: hl7(
    'urn:iso-astm:E1762-95:2013',
    '1.2.840.10065.1.12.1.14',
    'Source Signature',
    `${EX}CodeSystem-signature-type.json`,
  ),
} as const;

const PARTICIPATION = `${EX}CodeSystem-v3-ParticipationType.json`;
const occupation = (code: string, display: string): KnownCode =>
  hl7('http://snomed.info/sct', code, display, 'hl7.terminology.r4/ValueSet-snomed-intl-gps.json');

/** What a member of the team did. Roles without a verified code are text only. */
export const functionCodes: Readonly<Record<string, KnownCode>> = {
  operator: hl7(`${THO}v3-ParticipationType`, 'PPRF', 'primary performer', PARTICIPATION),
  assistant: hl7(`${THO}v3-ParticipationType`, 'SPRF', 'secondary performer', PARTICIPATION),
  radiographer: occupation('159016003', 'Medical radiographer (occupation)'),
  anaesthetist: occupation('88189002', 'Anesthesiologist (occupation)'),
};

/** What those who share documents file the report under, beside its type. */
export const documentClass: KnownCode = loinc(
  '34121-4',
  'Interventional procedure note',
  `${EX}ValueSet-document-classcodes.json`,
);

/** The form of a report is told by its MIME type alone. */
export const formatByMimeType: KnownCode = hl7(
  'http://ihe.net/fhir/ValueSet/IHE.FormatCode.codesystem',
  'urn:ihe:iti:xds:2017:mimeTypeSufficient',
  'mimeType Sufficient',
  `${EX}Bundle-externals.json`,
);

/** The clinical specialty in which the report was made. */
export const practiceSetting: KnownCode = {
  system: 'http://snomed.info/sct',
  code: '408455009',
  display: 'Radiology-Interventional radiology',
  source: `${EX}ValueSet-c80-practice-codes.json`,
  licensed: true,
};

/** Section of a diagnostic service that a report is filed under. */
export const diagnosticCategories = {
  radiology: hl7(`${THO}v2-0074`, 'RAD', 'Radiology', `${EX}CodeSystem-v2-0074.json`),
} as const;

const V2 = `${EX}CodeSystem-v2-0203.json`;
export const identifierTypes = {
  accession: hl7(`${THO}v2-0203`, 'ACSN', 'Accession ID', V2),
  order: hl7(`${THO}v2-0203`, 'PLAC', 'Placer Identifier', V2),
} as const;

const CONDITION = `${EX}CodeSystem-condition-`;
export const conditionCodes = {
  active: hl7(`${THO}condition-clinical`, 'active', 'Active', `${CONDITION}clinical.json`),
  inactive: hl7(`${THO}condition-clinical`, 'inactive', 'Inactive', `${CONDITION}clinical.json`),
  resolved: hl7(`${THO}condition-clinical`, 'resolved', 'Resolved', `${CONDITION}clinical.json`),
  encounter: hl7(
    `${THO}condition-category`,
    'encounter-diagnosis',
    'Encounter Diagnosis',
    `${CONDITION}category.json`,
  ),
} as const;

export const allergyCodes = {
  active: hl7(
    `${THO}allergyintolerance-clinical`,
    'active',
    'Active',
    `${EX}CodeSystem-allergyintolerance-clinical.json`,
  ),
} as const;

const ALLERGY_VERIFICATION = `${EX}CodeSystem-allergyintolerance-verification.json`;
const allergyVerification = (code: string, display: string): KnownCode =>
  hl7(`${THO}allergyintolerance-verification`, code, display, ALLERGY_VERIFICATION);

/** How sure an allergy is. */
export const allergyCertainty = {
  unconfirmed: allergyVerification('unconfirmed', 'Unconfirmed'),
  confirmed: allergyVerification('confirmed', 'Confirmed'),
} as const;

/** How two types say that they were entered in error: they have no status of that name. */
export const verificationCodes = {
  condition: hl7(
    `${THO}condition-ver-status`,
    'entered-in-error',
    'Entered in Error',
    `${CONDITION}ver-status.json`,
  ),
  allergy: allergyVerification('entered-in-error', 'Entered in Error'),
} as const;

const EVENT = `${EX}CodeSystem-adverse-event-`;
/** How severe an adverse event was. */
export const eventSeverity = {
  mild: hl7(`${THO}adverse-event-severity`, 'mild', 'Mild', `${EVENT}severity.json`),
  moderate: hl7(`${THO}adverse-event-severity`, 'moderate', 'Moderate', `${EVENT}severity.json`),
  severe: hl7(`${THO}adverse-event-severity`, 'severe', 'Severe', `${EVENT}severity.json`),
} as const;

export const consentCodes = {
  category: loinc('59284-0', 'Patient Consent'),
  scope: hl7(`${THO}consentscope`, 'treatment', 'Treatment', `${EX}CodeSystem-consent-scope.json`),
} as const;
