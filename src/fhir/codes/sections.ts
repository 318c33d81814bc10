import { sectionCodes } from './document.js';
import type { KnownCode } from './types.js';

/** A section of the document: heading, and LOINC code where one says the same. */
export interface SectionRow {
  readonly title: string;
  readonly code?: KnownCode;
  /** The section it stands inside, for parts that the report prints under one heading. */
  readonly within?: SectionKey;
}

/** Sections in the order of the document, for those that the report does not order itself. */
export const sectionRows = {
  case: { title: 'Case' },
  indication: {
    title: 'Indication',
    code: sectionCodes.indication,
  },
  before: { title: 'Before the procedure', code: sectionCodes.before },
  allergies: {
    title: 'Allergies',
    code: sectionCodes.allergies,
    within: 'before',
  },
  anticoagulants: {
    title: 'Anticoagulants',
    code: sectionCodes.anticoagulants,
    within: 'before',
  },
  labs: {
    title: 'Laboratory results',
    code: sectionCodes.labs,
    within: 'before',
  },
  consent: { title: 'Consent and safety checks', code: sectionCodes.consent },
  team: { title: 'Team' },
  drugs: {
    title: 'Drugs and contrast given',
    code: sectionCodes.drugs,
  },
  sedation: {
    title: 'Sedation and anaesthesia',
    code: sectionCodes.sedation,
    within: 'drugs',
  },
  technique: { title: 'Procedure', code: sectionCodes.technique },
  devices: { title: 'Devices', code: sectionCodes.devices },
  findings: { title: 'Findings', code: sectionCodes.findings },
  images: { title: 'Images', code: sectionCodes.images },
  complications: { title: 'Complications', code: sectionCodes.complications },
  outcome: { title: 'Outcome', code: sectionCodes.outcome },
  inside: { title: 'What stays in the patient', code: sectionCodes.inside },
  specimens: { title: 'Specimens', code: sectionCodes.specimens },
  dose: {
    title: 'Radiation',
    code: sectionCodes.dose,
  },
  after: {
    title: 'After the procedure',
    code: sectionCodes.after,
  },
  aftercare: { title: 'Aftercare', code: sectionCodes.aftercare },
  worked: { title: 'Worked out', code: sectionCodes.worked },
  advice: { title: 'Advice', code: sectionCodes.advice },
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
