import { dcm, gps, hl7, type KnownCode, loinc } from './types.js';

const EX = 'hl7.fhir.r4.examples/';
const THO = 'http://terminology.hl7.org/CodeSystem/';

/** Radiation totals, as DICOM names them. */
export const doseCodes = {
  kermaAreaProduct: dcm('113722', 'Dose Area Product Total'),
  airKerma: dcm('113725', 'Dose (RP) Total'),
  fluoroscopyTime: dcm('113730', 'Total Fluoro Time'),
  frames: dcm('113731', 'Total Number of Radiographic Frames'),
  doseLengthProduct: dcm('113813', 'CT Dose Length Product Total'),
  ctDoseIndex: dcm('113830', 'Mean CTDIvol'),
  summary: loinc(
    '73569-6',
    'Radiation exposure and protection information [Description] Document Diagnostic imaging',
  ),
} as const;

/** Laboratory tests by name and UCUM code of the result: LOINC keeps mass and molar results apart. */
export const labCodes: readonly {
  readonly name: string;
  readonly units: readonly string[];
  readonly code: KnownCode;
}[] = [
  {
    name: 'creatinine',
    units: ['umol/L', 'mmol/L'],
    code: loinc(
      '14682-9',
      'Creatinine [Moles/volume] in Serum or Plasma',
      `${EX}Bundle-72ac8493-52ac-41bd-8d5d-7258c289b5ea.json`,
    ),
  },
  {
    name: 'creatinine',
    units: ['mg/dL', 'mg/L'],
    code: loinc(
      '2160-0',
      'Creatinine [Mass/volume] in Serum or Plasma',
      'hl7.fhir.uv.ips/example/Observation-serum-creatinine-adult.json',
    ),
  },
  {
    name: 'platelets',
    units: ['10*9/L', '10*3/uL'],
    code: loinc('26515-7', 'Platelets [#/volume] in Blood', `${EX}Bundle-report.json`),
  },
  {
    name: 'haemoglobin',
    units: ['g/L', 'g/dL'],
    code: loinc('718-7', 'Hemoglobin [Mass/volume] in Blood', `${EX}Bundle-101.json`),
  },
  {
    name: 'bilirubin',
    units: ['umol/L'],
    code: loinc(
      '14631-6',
      'Bilirubin.total [Moles/volume] in Serum or Plasma',
      `${EX}Bundle-72ac8493-52ac-41bd-8d5d-7258c289b5ea.json`,
    ),
  },
];

export const vitalCodes = {
  weight: loinc('29463-7', 'Body weight', 'hl7.fhir.uv.ips/example/Bundle-bundle-ips-all-sections.json'),
  height: loinc('8302-2', 'Body height', `${EX}Observation-body-height.json`),
} as const;

/** Vital signs by name, each with the UCUM codes that FHIR's vital signs profile of it accepts. */
export const vitalSignCodes = {
  'heart rate': { units: ['/min'], code: loinc('8867-4', 'Heart rate', `${EX}Observation-heart-rate.json`) },
  'respiratory rate': {
    units: ['/min'],
    code: loinc('9279-1', 'Respiratory rate', `${EX}Observation-respiratory-rate.json`),
  },
  'oxygen saturation': {
    units: ['%'],
    code: loinc('2708-6', 'Oxygen saturation in Arterial blood', `${EX}Observation-satO2.json`),
  },
  'body temperature': {
    units: ['Cel', '[degF]'],
    code: loinc('8310-5', 'Body temperature', `${EX}Observation-body-temperature.json`),
  },
} as const;

/** Blood pressure as a panel of two; its profile accepts mmHg alone. */
export const bloodPressureCodes = {
  panel: loinc(
    '85354-9',
    'Blood pressure panel with all children optional',
    `${EX}Observation-blood-pressure.json`,
  ),
  systolic: loinc('8480-6', 'Systolic blood pressure', `${EX}Observation-blood-pressure.json`),
  diastolic: loinc('8462-4', 'Diastolic blood pressure', `${EX}Observation-blood-pressure.json`),
} as const;

export const pregnancyStatus: KnownCode = loinc(
  '82810-3',
  'Pregnancy status',
  'hl7.fhir.uv.ips/example/Bundle-bundle-ips-all-sections.json',
);

const IPS_PREGNANCY = 'hl7.fhir.uv.ips/ValueSet-pregnancy-status-uv-ips.json';
export const pregnancyAnswers = {
  yes: hl7('http://snomed.info/sct', '77386006', 'Pregnant', IPS_PREGNANCY),
  no: hl7('http://snomed.info/sct', '60001007', 'Not pregnant', IPS_PREGNANCY),
} as const;

const ABSENT = `${EX}CodeSystem-data-absent-reason.json`;
export const absentReasons = {
  'not asked': hl7(`${THO}data-absent-reason`, 'not-asked', 'Not Asked', ABSENT),
  'not applicable': hl7(`${THO}data-absent-reason`, 'not-applicable', 'Not Applicable', ABSENT),
  unknown: hl7(`${THO}data-absent-reason`, 'unknown', 'Unknown', ABSENT),
} as const;

const CATEGORY = `${EX}CodeSystem-observation-category.json`;
export const observationCategories = {
  laboratory: hl7(`${THO}observation-category`, 'laboratory', 'Laboratory', CATEGORY),
  procedure: hl7(`${THO}observation-category`, 'procedure', 'Procedure', CATEGORY),
  imaging: hl7(`${THO}observation-category`, 'imaging', 'Imaging', CATEGORY),
  vitals: hl7(`${THO}observation-category`, 'vital-signs', 'Vital Signs', CATEGORY),
  exam: hl7(`${THO}observation-category`, 'exam', 'Exam', CATEGORY),
} as const;

export const noKnownAllergy: KnownCode = hl7(
  'http://snomed.info/sct',
  '716186003',
  'No known allergy (situation)',
  'hl7.fhir.uv.ips/example/AllergyIntolerance-eumfh-39-07-1.json',
);

/** R4's condition-severity value set. */
export const severityCodes = {
  mild: gps('255604002', 'Mild (qualifier value)'),
  moderate: gps('6736007', 'Moderate (severity modifier) (qualifier value)'),
  severe: gps('24484000', 'Severe (severity modifier) (qualifier value)'),
} as const;

/** Ways in. A route without a verified code is text only. */
export const routeCodes: Readonly<Record<string, KnownCode>> = {
  intravenous: gps('47625008', 'Intravenous route (qualifier value)'),
  'intra-arterial': gps('58100008', 'Intra-arterial route (qualifier value)'),
  oral: gps('26643006', 'Oral route (qualifier value)'),
  subcutaneous: gps('34206005', 'Subcutaneous route (qualifier value)'),
  intramuscular: gps('78421000', 'Intramuscular route (qualifier value)'),
  rectal: gps('37161004', 'Rectal route (qualifier value)'),
  topical: gps('6064005', 'Topical route (qualifier value)'),
};

/** Samples by name. */
export const specimenCodes: Readonly<Record<string, KnownCode>> = {
  bile: gps('119341000', 'Bile specimen (specimen)'),
  pus: gps('119323008', 'Pus specimen (specimen)'),
  urine: gps('122575003', 'Urine specimen (specimen)'),
  tissue: gps('119376003', 'Tissue specimen (specimen)'),
};

/** Complications by name. */
export const complicationCodes: Readonly<Record<string, KnownCode>> = {
  pneumothorax: gps('36118008', 'Pneumothorax (disorder)'),
  pseudoaneurysm: gps('443089001', 'Pseudoaneurysm (disorder)'),
  haematoma: gps('385494008', 'Hematoma (disorder)'),
  sepsis: gps('91302008', 'Sepsis (disorder)'),
  'migration of device': gps('370512004', 'Migration of implant or internal device (disorder)'),
};
