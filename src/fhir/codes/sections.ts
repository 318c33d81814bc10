import { type KnownCode, loinc } from './types.js';

/** A section of the document: heading, and LOINC code where one says the same. */
export interface SectionRow {
  readonly title: string;
  readonly code?: KnownCode;
  /** The section it stands inside, for parts that the report prints under one heading. */
  readonly within?: SectionKey;
}

const IPS = 'hl7.fhir.uv.ips/example/Bundle-bundle-ips-all-sections.json';

/** Sections in the order of the document, for those that the report does not order itself. */
export const sectionRows = {
  case: { title: 'Case' },
  indication: {
    title: 'Indication',
    code: loinc('59768-2', 'Procedure indications [Interpretation] Narrative'),
  },
  before: { title: 'Before the procedure', code: loinc('11348-0', 'History of Past illness note', IPS) },
  allergies: {
    title: 'Allergies',
    code: loinc('48765-2', 'Allergies and adverse reactions Document', IPS),
    within: 'before',
  },
  anticoagulants: {
    title: 'Anticoagulants',
    code: loinc('10160-0', 'History of Medication use Narrative', IPS),
    within: 'before',
  },
  labs: {
    title: 'Laboratory results',
    code: loinc('30954-2', 'Relevant diagnostic tests/laboratory data note', IPS),
    within: 'before',
  },
  consent: { title: 'Consent and safety checks', code: loinc('64293-4', 'Procedure consent') },
  team: { title: 'Team' },
  drugs: {
    title: 'Drugs and contrast given',
    code: loinc('29549-3', 'Medication administered Narrative'),
  },
  sedation: {
    title: 'Sedation and anaesthesia',
    code: loinc('59774-0', 'Procedure anesthesia Narrative'),
    within: 'drugs',
  },
  technique: { title: 'Procedure', code: loinc('29554-3', 'Procedure Narrative') },
  devices: { title: 'Devices', code: loinc('46264-8', 'History of medical device use', IPS) },
  findings: { title: 'Findings', code: loinc('59776-5', 'Procedure findings Narrative') },
  images: { title: 'Images', code: loinc('18748-4', 'Diagnostic imaging study') },
  complications: { title: 'Complications', code: loinc('55109-3', 'Complications Document') },
  outcome: { title: 'Outcome', code: loinc('59775-7', 'Procedure disposition Narrative') },
  inside: { title: 'What stays in the patient', code: loinc('59771-6', 'Procedure implants Narrative') },
  specimens: { title: 'Specimens', code: loinc('59773-2', 'Procedure specimens taken Narrative') },
  dose: {
    title: 'Radiation',
    code: loinc(
      '73569-6',
      'Radiation exposure and protection information [Description] Document Diagnostic imaging',
    ),
  },
  after: {
    title: 'After the procedure',
    code: loinc('30954-2', 'Relevant diagnostic tests/laboratory data note', IPS),
  },
  aftercare: { title: 'Aftercare', code: loinc('18776-5', 'Plan of care note', IPS) },
  worked: { title: 'Worked out', code: loinc('51848-0', 'Assessment note') },
  advice: { title: 'Advice', code: loinc('69730-0', 'Instructions [Text] Narrative') },
} as const satisfies Readonly<Record<string, Omit<SectionRow, 'within'> & { within?: string }>>;

export type SectionKey = keyof typeof sectionRows;

/** The row of a section key; undefined for a key that the table does not have. */
export function sectionRow(key: string): SectionRow | undefined {
  return Object.hasOwn(sectionRows, key) ? rows[key] : undefined;
}

const rows: Readonly<Record<string, SectionRow>> = sectionRows;

/** Keys in table order. */
export const sectionOrder: readonly SectionKey[] = Object.keys(sectionRows).filter(
  (key): key is SectionKey => key in sectionRows,
);

/** Type of the document when the site names none. */
export const procedureNote: KnownCode = loinc('28570-0', 'Procedure note');
