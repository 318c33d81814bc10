// Made by npm run docs from scripts/codes/table.yaml, and from nothing else: change it there.
import { f, s } from './sources.js';
import { k, loinc, sct } from './types.js';

/** Radiation totals, as DICOM names them. */
// biome-ignore format: a table reads best with one code a line
export const doseCodes = {
  kermaAreaProduct: k(s.dcm, '113722', 'Dose Area Product Total', f.dicom),
  airKerma: k(s.dcm, '113725', 'Dose (RP) Total', f.dicom),
  fluoroscopyTime: k(s.dcm, '113730', 'Total Fluoro Time', f.dicom),
  frames: k(s.dcm, '113731', 'Total Number of Radiographic Frames', f.dicom),
  doseLengthProduct: k(s.dcm, '113813', 'CT Dose Length Product Total', f.dicom),
  ctDoseIndex: k(s.dcm, '113830', 'Mean CTDIvol', f.dicom),
  summary: loinc('73569-6', 'Radiation exposure and protection information [Description] Document Diagnostic imaging', f.expansions),
};

/** Laboratory tests by name and UCUM code of the result: LOINC keeps mass and molar results apart. */
// biome-ignore format: a table reads best with one code a line
export const labCodes = {
  creatinine: {
    'umol/L': loinc('14682-9', 'Creatinine [Moles/volume] in Serum or Plasma', f.labReport),
    'mmol/L': loinc('14682-9', 'Creatinine [Moles/volume] in Serum or Plasma', f.labReport),
    'mg/dL': loinc('2160-0', 'Creatinine [Mass/volume] in Serum or Plasma', f.summaryCreatinine),
    'mg/L': loinc('2160-0', 'Creatinine [Mass/volume] in Serum or Plasma', f.summaryCreatinine),
  },
  sodium: {
    'mmol/L': loinc('2951-2', 'Sodium [Moles/volume] in Serum or Plasma', f.labReport),
  },
  potassium: {
    'mmol/L': loinc('2823-3', 'Potassium [Moles/volume] in Serum or Plasma', f.labReport),
  },
  phosphate: {
    'mmol/L': loinc('14879-1', 'Phosphate [Moles/volume] in Serum or Plasma', f.labReport),
  },
  platelets: {
    '10*9/L': loinc('26515-7', 'Platelets [#/volume] in Blood', f.bloodReport),
    '10*3/uL': loinc('26515-7', 'Platelets [#/volume] in Blood', f.bloodReport),
  },
  haemoglobin: {
    'g/L': loinc('718-7', 'Hemoglobin [Mass/volume] in Blood', f.hospitalReport),
    'g/dL': loinc('718-7', 'Hemoglobin [Mass/volume] in Blood', f.hospitalReport),
  },
  haematocrit: {
    '%': loinc('20570-8', 'Hematocrit [Volume Fraction] of Blood', f.bloodReport),
    '1': loinc('20570-8', 'Hematocrit [Volume Fraction] of Blood', f.bloodReport),
  },
  'white cells': {
    '10*9/L': loinc('26464-8', 'Leukocytes [#/volume] in Blood', f.bloodReport),
    '10*3/uL': loinc('26464-8', 'Leukocytes [#/volume] in Blood', f.bloodReport),
  },
  bilirubin: {
    'umol/L': loinc('14631-6', 'Bilirubin.total [Moles/volume] in Serum or Plasma', f.labReport),
  },
  'direct bilirubin': {
    'umol/L': loinc('14629-0', 'Bilirubin.direct [Moles/volume] in Serum or Plasma', f.labReport),
  },
  albumin: {
    'g/L': loinc('1751-7', 'Albumin [Mass/volume] in Serum or Plasma', f.labReport),
    'g/dL': loinc('1751-7', 'Albumin [Mass/volume] in Serum or Plasma', f.labReport),
  },
  'alkaline phosphatase': {
    'U/L': loinc('6768-6', 'Alkaline phosphatase [Enzymatic activity/volume] in Serum or Plasma', f.labReport),
  },
  'gamma-glutamyl transferase': {
    'U/L': loinc('2324-2', 'Gamma glutamyl transferase [Enzymatic activity/volume] in Serum or Plasma', f.labReport),
  },
  'alanine aminotransferase': {
    'U/L': loinc('1742-6', 'Alanine aminotransferase [Enzymatic activity/volume] in Serum or Plasma', f.labReport),
  },
  'aspartate aminotransferase': {
    'U/L': loinc('1920-8', 'Aspartate aminotransferase [Enzymatic activity/volume] in Serum or Plasma', f.labReport),
  },
  'lactate dehydrogenase': {
    'U/L': loinc('2532-0', 'Lactate dehydrogenase [Enzymatic activity/volume] in Serum or Plasma', f.labReport),
  },
};

// biome-ignore format: a table reads best with one code a line
export const vitalCodes = {
  weight: loinc('29463-7', 'Body weight', f.summary),
  height: loinc('8302-2', 'Body height', f.bodyHeight),
};

/** Vital signs by name and by the UCUM codes that FHIR's vital signs profile of each accepts. */
// biome-ignore format: a table reads best with one code a line
export const vitalSignCodes = {
  'heart rate': {
    '/min': loinc('8867-4', 'Heart rate', f.heartRate),
  },
  'respiratory rate': {
    '/min': loinc('9279-1', 'Respiratory rate', f.respiratoryRate),
  },
  'oxygen saturation': {
    '%': loinc('2708-6', 'Oxygen saturation in Arterial blood', f.saturation),
  },
  'body temperature': {
    Cel: loinc('8310-5', 'Body temperature', f.bodyTemperature),
    '[degF]': loinc('8310-5', 'Body temperature', f.bodyTemperature),
  },
};

/** Blood pressure as a panel of two; its profile accepts mmHg alone. */
// biome-ignore format: a table reads best with one code a line
export const bloodPressureCodes = {
  panel: loinc('85354-9', 'Blood pressure panel with all children optional', f.bloodPressure),
  systolic: loinc('8480-6', 'Systolic blood pressure', f.bloodPressure),
  diastolic: loinc('8462-4', 'Diastolic blood pressure', f.bloodPressure),
};

// biome-ignore format: a table reads best with one code a line
export const pregnancyStatus = loinc('82810-3', 'Pregnancy status', f.summary);

// biome-ignore format: a table reads best with one code a line
export const pregnancyAnswers = {
  yes: sct('77386006', 'Pregnant', f.summaryPregnancy),
  no: sct('60001007', 'Not pregnant', f.summaryPregnancy),
};

// biome-ignore format: a table reads best with one code a line
export const absentReasons = {
  'not asked': k(s.absentReason, 'not-asked', 'Not Asked', f.expansions),
  'not applicable': k(s.absentReason, 'not-applicable', 'Not Applicable', f.expansions),
  unknown: k(s.absentReason, 'unknown', 'Unknown', f.expansions),
};

// biome-ignore format: a table reads best with one code a line
export const observationCategories = {
  laboratory: k(s.observationCategory, 'laboratory', 'Laboratory', f.expansions),
  procedure: k(s.observationCategory, 'procedure', 'Procedure', f.expansions),
  imaging: k(s.observationCategory, 'imaging', 'Imaging', f.expansions),
  vitals: k(s.observationCategory, 'vital-signs', 'Vital Signs', f.expansions),
  exam: k(s.observationCategory, 'exam', 'Exam', f.expansions),
};

// biome-ignore format: a table reads best with one code a line
export const noKnownAllergy = sct('716186003', 'No known allergy (situation)', f.gps);

/** R4's condition-severity value set. */
// biome-ignore format: a table reads best with one code a line
export const severityCodes = {
  mild: sct('255604002', 'Mild (qualifier value)', f.gps),
  moderate: sct('6736007', 'Moderate (severity modifier) (qualifier value)', f.gps),
  severe: sct('24484000', 'Severe (severity modifier) (qualifier value)', f.gps),
};

/** Samples by name, compared without case. */
// biome-ignore format: a table reads best with one code a line
export const specimenCodes = {
  bile: sct('119341000', 'Bile specimen (specimen)', f.gps),
  pus: sct('119323008', 'Pus specimen (specimen)', f.gps),
  urine: sct('122575003', 'Urine specimen (specimen)', f.gps),
  'urine from nephrostomy': sct('446277003', 'Urine specimen obtained from nephrostomy tube after percutaneous insertion (specimen)', f.gps),
  'nephrostomy urine': sct('446277003', 'Urine specimen obtained from nephrostomy tube after percutaneous insertion (specimen)', f.gps),
  'urine from the nephrostomy': sct('446277003', 'Urine specimen obtained from nephrostomy tube after percutaneous insertion (specimen)', f.gps),
  'urine from nephrostomy tube': sct('446277003', 'Urine specimen obtained from nephrostomy tube after percutaneous insertion (specimen)', f.gps),
  tissue: sct('119376003', 'Tissue specimen (specimen)', f.gps),
  blood: sct('119297000', 'Blood specimen (specimen)', f.gps),
  'venous blood': sct('122555007', 'Venous blood specimen (specimen)', f.gps),
  'arterial blood': sct('122552005', 'Arterial blood specimen (specimen)', f.gps),
  'pleural fluid': sct('418564007', 'Pleural fluid specimen (specimen)', f.gps),
  'peritoneal fluid': sct('168139001', 'Peritoneal fluid sample (specimen)', f.gps),
  'pericardial fluid': sct('122571007', 'Pericardial fluid specimen (specimen)', f.gps),
  'synovial fluid': sct('119332005', 'Synovial fluid specimen (specimen)', f.gps),
  'joint fluid': sct('119332005', 'Synovial fluid specimen (specimen)', f.gps),
  'cerebrospinal fluid': sct('258450006', 'Cerebrospinal fluid sample (specimen)', f.gps),
  CSF: sct('258450006', 'Cerebrospinal fluid sample (specimen)', f.gps),
  'cyst fluid': sct('258453008', 'Cyst fluid sample (specimen)', f.gps),
  'drainage fluid': sct('258455001', 'Drainage fluid sample (specimen)', f.gps),
  'drain fluid': sct('258455001', 'Drainage fluid sample (specimen)', f.gps),
  stone: sct('119350003', 'Calculus specimen (specimen)', f.gps),
  calculus: sct('119350003', 'Calculus specimen (specimen)', f.gps),
  'catheter tip': sct('119312009', 'Catheter tip specimen (specimen)', f.gps),
  'lung biopsy': sct('122610009', 'Specimen from lung obtained by biopsy (specimen)', f.gps),
  'lymph node aspirate': sct('302795002', 'Lymph node aspirate (specimen)', f.gps),
  'breast core biopsy': sct('122737001', 'Specimen from breast obtained by core needle biopsy (specimen)', f.gps),
  'bronchoalveolar lavage': sct('258607008', 'Bronchoalveolar lavage fluid sample (specimen)', f.gps),
  'bronchoalveolar lavage fluid': sct('258607008', 'Bronchoalveolar lavage fluid sample (specimen)', f.gps),
  'tumour tissue': sct('258435002', 'Tumor tissue sample (specimen)', f.gps),
  'tumor tissue': sct('258435002', 'Tumor tissue sample (specimen)', f.gps),
};
