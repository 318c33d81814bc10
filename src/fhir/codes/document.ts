// Made by npm run docs from scripts/codes/table.yaml, and from nothing else: change it there.
import { f, s } from './sources.js';
import { k, loinc, sct } from './types.js';

// biome-ignore format: a table reads best with one code a line
export const emptyReasons = {
  nilknown: k(s.emptyReason, 'nilknown', 'Nil Known', f.expansions),
  notasked: k(s.emptyReason, 'notasked', 'Not Asked', f.expansions),
};

// biome-ignore format: a table reads best with one code a line
export const agentTypes = {
  author: k(s.agentType, 'author', 'Author', f.expansions),
  assembler: k(s.agentType, 'assembler', 'Assembler', f.expansions),
};

// biome-ignore format: a table reads best with one code a line
export const activities = {
  create: k(s.dataOperation, 'CREATE', 'create', f.expansions),
  update: k(s.dataOperation, 'UPDATE', 'revise', f.expansions),
  append: k(s.dataOperation, 'APPEND', 'append', f.expansions),
  nullify: k(s.dataOperation, 'NULLIFY', 'nullify', f.expansions),
};

/** What a signature stands for: the site's key vouches for where the document comes from, not for its author's consent. */
// biome-ignore format: a table reads best with one code a line
export const signatureTypes = {
  source: k(s.signatureType, '1.2.840.10065.1.12.1.14', 'Source Signature', f.expansions),
};

/** What a member of the team did. Roles without a code are text only. */
// biome-ignore format: a table reads best with one code a line
export const functionCodes = {
  operator: k(s.participation, 'PPRF', 'primary performer', f.expansions),
  assistant: k(s.participation, 'SPRF', 'secondary performer', f.expansions),
  referrer: k(s.participation, 'REF', 'referrer', f.expansions),
  radiographer: sct('159016003', 'Medical radiographer (occupation)', f.gps),
  nurse: sct('106292003', 'Professional nurse (occupation)', f.gps),
  anaesthetist: sct('88189002', 'Anesthesiologist (occupation)', f.gps),
};

/** What those who share documents file the report under, beside its type. */
// biome-ignore format: a table reads best with one code a line
export const documentClass = loinc('34121-4', 'Interventional procedure note', f.expansions);

/** The form of a report is told by its MIME type alone. */
// biome-ignore format: a table reads best with one code a line
export const formatByMimeType = k(s.formatCode, 'urn:ihe:iti:xds:2017:mimeTypeSufficient', 'mimeType Sufficient', f.expansions);

/** The clinical specialty in which the report was made. */
// biome-ignore format: a table reads best with one code a line
export const practiceSetting = sct('408455009', 'Radiology-Interventional radiology', f.expansions, 'licensed');

/** Section of a diagnostic service that a report is filed under. */
// biome-ignore format: a table reads best with one code a line
export const diagnosticCategories = {
  radiology: k(s.diagnosticSection, 'RAD', 'Radiology', f.expansions),
};

// biome-ignore format: a table reads best with one code a line
export const identifierTypes = {
  accession: k(s.identifierType, 'ACSN', 'Accession ID', f.expansions),
  order: k(s.identifierType, 'PLAC', 'Placer Identifier', f.expansions),
};

// biome-ignore format: a table reads best with one code a line
export const conditionCodes = {
  active: k(s.conditionStatus, 'active', 'Active', f.expansions),
  inactive: k(s.conditionStatus, 'inactive', 'Inactive', f.expansions),
  resolved: k(s.conditionStatus, 'resolved', 'Resolved', f.expansions),
  encounter: k(s.conditionCategory, 'encounter-diagnosis', 'Encounter Diagnosis', f.expansions),
};

// biome-ignore format: a table reads best with one code a line
export const allergyCodes = {
  active: k(s.allergyStatus, 'active', 'Active', f.expansions),
};

/** How sure an allergy is. */
// biome-ignore format: a table reads best with one code a line
export const allergyCertainty = {
  unconfirmed: k(s.allergyVerification, 'unconfirmed', 'Unconfirmed', f.expansions),
  confirmed: k(s.allergyVerification, 'confirmed', 'Confirmed', f.expansions),
};

/** How two types say that they were entered in error: they have no status of that name. */
// biome-ignore format: a table reads best with one code a line
export const verificationCodes = {
  condition: k(s.conditionVerification, 'entered-in-error', 'Entered in Error', f.expansions),
  allergy: k(s.allergyVerification, 'entered-in-error', 'Entered in Error', f.expansions),
};

/** How severe an adverse event was. */
// biome-ignore format: a table reads best with one code a line
export const eventSeverity = {
  mild: k(s.eventSeverity, 'mild', 'Mild', f.expansions),
  moderate: k(s.eventSeverity, 'moderate', 'Moderate', f.expansions),
  severe: k(s.eventSeverity, 'severe', 'Severe', f.expansions),
};

// biome-ignore format: a table reads best with one code a line
export const consentCodes = {
  category: loinc('59284-0', 'Patient Consent', f.expansions),
  scope: k(s.consentScope, 'treatment', 'Treatment', f.expansions),
};

/** Sections of the document, by key. */
// biome-ignore format: a table reads best with one code a line
export const sectionCodes = {
  indication: loinc('59768-2', 'Procedure indications [Interpretation] Narrative', f.sections),
  before: loinc('11348-0', 'History of Past illness note', f.summary),
  allergies: loinc('48765-2', 'Allergies and adverse reactions Document', f.summary),
  anticoagulants: loinc('10160-0', 'History of Medication use Narrative', f.summary),
  labs: loinc('30954-2', 'Relevant diagnostic tests/laboratory data note', f.summary),
  consent: loinc('64293-4', 'Procedure consent', f.expansions),
  drugs: loinc('29549-3', 'Medication administered Narrative', f.expansions),
  sedation: loinc('59774-0', 'Procedure anesthesia Narrative', f.expansions),
  technique: loinc('29554-3', 'Procedure Narrative', f.expansions),
  devices: loinc('46264-8', 'History of medical device use', f.summary),
  findings: loinc('59776-5', 'Procedure findings Narrative', f.expansions),
  images: loinc('18748-4', 'Diagnostic imaging study', f.expansions),
  complications: loinc('55109-3', 'Complications Document', f.expansions),
  outcome: loinc('59775-7', 'Procedure disposition Narrative', f.expansions),
  inside: loinc('59771-6', 'Procedure implants Narrative', f.expansions),
  specimens: loinc('59773-2', 'Procedure specimens taken Narrative', f.expansions),
  dose: loinc('73569-6', 'Radiation exposure and protection information [Description] Document Diagnostic imaging', f.expansions),
  after: loinc('30954-2', 'Relevant diagnostic tests/laboratory data note', f.summary),
  aftercare: loinc('18776-5', 'Plan of care note', f.summary),
  worked: loinc('51848-0', 'Assessment note', f.expansions),
  advice: loinc('69730-0', 'Instructions [Text] Narrative', f.expansions),
};

/** Type of the document when the site names none. */
// biome-ignore format: a table reads best with one code a line
export const procedureNote = loinc('28570-0', 'Procedure note', f.documentTypes);
