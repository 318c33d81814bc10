import type { Coding } from 'fhir/r4.js';
import { ownCodeSystem } from '../profiles.js';
import { gps, hl7, type KnownCode, SNOMED, sct } from './types.js';

/** Whole cases by the name of their row in the table of kinds of case. */
export const caseKindCodes: Readonly<Record<string, KnownCode>> = {
  nephrostomy: gps('313270001', 'Percutaneous insertion of nephrostomy tube (procedure)'),
  'ureteric stent': gps('428817001', 'Insertion of stent into ureter (procedure)'),
  'caval filter insertion': gps('398182006', 'Insertion of inferior vena caval filter (procedure)'),
  'abscess drainage': gps('118442004', 'Drainage of abscess (procedure)'),
  angioplasty: gps('68457009', 'Percutaneous transluminal balloon angioplasty (procedure)'),
  'dialysis circuit angioplasty': gps(
    '68457009',
    'Percutaneous transluminal balloon angioplasty (procedure)',
  ),
  embolisation: gps('16736007', 'Transcatheter therapy for embolization (procedure)'),
};

/** Placement of one device, by the name of its row in the table of kinds of device. */
export const placementCodes: Readonly<Record<string, KnownCode>> = {
  'nephrostomy catheter': gps('313270001', 'Percutaneous insertion of nephrostomy tube (procedure)'),
  'locking nephrostomy catheter': gps('313270001', 'Percutaneous insertion of nephrostomy tube (procedure)'),
  'ureteric stent': gps('428817001', 'Insertion of stent into ureter (procedure)'),
  'double-J stent': gps('428817001', 'Insertion of stent into ureter (procedure)'),
  'metal ureteric stent': gps('428817001', 'Insertion of stent into ureter (procedure)'),
  'tumour ureteric stent': gps('428817001', 'Insertion of stent into ureter (procedure)'),
  'caval filter': gps('398182006', 'Insertion of inferior vena caval filter (procedure)'),
};

/** Placement of any stent: what current DICOM code lists have in place of 103716009. */
export const stentInsertion: KnownCode = {
  system: SNOMED,
  code: '1296925008',
  display: 'Insertion of stent (procedure)',
  source: '[DICOM PS3.16 context groups 9 and 3405, current edition]',
  licensed: true,
};

/** Removal of one device, by the name of its row. */
export const removalCodes: Readonly<Record<string, KnownCode>> = {
  'ureteric stent': gps('178728009', 'Removal of ureteral stent (procedure)'),
  'double-J stent': gps('178728009', 'Removal of ureteral stent (procedure)'),
  'metal ureteric stent': gps('178728009', 'Removal of ureteral stent (procedure)'),
  'tumour ureteric stent': gps('178728009', 'Removal of ureteral stent (procedure)'),
};

export const componentCodes = {
  exchangeOfCatheter: gps('103713001', 'Replacement of catheter (procedure)'),
  removalOfCatheter: gps('103715008', 'Removal of catheter (procedure)'),
  embolisation: gps('16736007', 'Transcatheter therapy for embolization (procedure)'),
} as const;

/** What kind of act the case was. */
export const categoryCodes = {
  therapeutic: gps('277132007', 'Therapeutic procedure (procedure)'),
  diagnostic: gps('103693007', 'Diagnostic procedure (procedure)'),
} as const;

/** R4's procedure-outcome value set. */
export const outcomeCodes = {
  successful: sct('385669000', 'Successful'),
  'partially successful': sct('385670004', 'Partially successful'),
  unsuccessful: sct('385671000', 'Unsuccessful'),
} as const;

/** The code of our own code system for each outcome: the one that needs no licence. */
export const ownOutcome = (outcome: keyof typeof outcomeCodes, base?: string): Coding => ({
  system: ownCodeSystem('outcome', base),
  code: outcome.replaceAll(' ', '-'),
  display: outcome,
});

export const failedAttempt: KnownCode = gps('103709008', 'Failed attempted procedure (situation)');

/** Sedation or anaesthesia, where one code says what the record says. */
export const sedationCodes: Readonly<Record<string, KnownCode>> = {
  'local anaesthesia only': gps('386761002', 'Local anesthesia (procedure)'),
  'general anaesthesia': gps('50697003', 'General anesthesia (procedure)'),
};

/** Priority of the case. */
export const urgencyCodes = {
  elective: priority('EL', 'elective'),
  urgent: priority('UR', 'urgent'),
  emergency: priority('EM', 'emergency'),
} as const;

function priority(code: string, display: string): KnownCode {
  return {
    system: 'http://terminology.hl7.org/CodeSystem/v3-ActPriority',
    code,
    display,
    source: 'hl7.fhir.r4.examples/Bundle-valueset-expansions.json',
  };
}

/** What a Task seeks. */
export const taskCodes = {
  fulfil: hl7(
    'http://hl7.org/fhir/CodeSystem/task-code',
    'fulfill',
    'Fulfill the focal request',
    'hl7.fhir.r4.examples/CodeSystem-task-code.json',
  ),
} as const;
