import { listOf, type Match, type Named, NameTable } from './names.js';

/** Analytes that calculations use. */
export type LabName = 'creatinine' | 'cystatin C' | 'INR' | 'platelets' | 'fibrinogen' | 'haemoglobin';

/** What a value may come to in a unit: beyond it, the unit or the figure is wrong. */
export interface Plausible {
  /** UCUM code. */
  readonly unit: string;
  readonly least: string;
  readonly most: string;
}

/** One measured thing. */
export interface Analyte extends Named {
  readonly plausible: readonly Plausible[];
}

/** One row: name, other names, and what is possible: `unit least..most`, parted by `|`. */
function m(name: string, aliases: string, plausible = ''): Analyte {
  const ranges = listOf(plausible).map((text): Plausible => {
    const [unit = '', range = ''] = text.split(' ');
    const [least = '', most = ''] = range.split('..');
    return { unit, least, most };
  });
  return { name, aliases: listOf(aliases), plausible: ranges };
}

/** Names and ranges that no patient leaves: common practice, no source. Ranges are wider than any reference range. */
// biome-ignore format: a table reads best with one analyte a line
export const analytes: readonly Analyte[] = [
  m('creatinine', 'serum creatinine|plasma creatinine|S-creatinine|P-creatinine|creat|crea|blood creatinine|creatinine enzymatic', 'umol/L 10..2500|mg/dL 0.113..28.3'),
  m('creatinine clearance', 'CrCl|clearance of creatinine', 'mL/min 1..300'),
  m('creatinine in urine', 'urine creatinine|urinary creatinine'),
  m('albumin to creatinine ratio', 'ACR|albumin creatinine ratio|protein creatinine ratio|urine albumin creatinine ratio'),
  m('creatine kinase', 'CK|CPK', 'U/L 1..500000'),
  m('cystatin C', 'serum cystatin C|cystatin', 'mg/L 0.1..15'),
  m('estimated filtration rate', 'eGFR|GFR|estimated GFR|glomerular filtration rate', 'mL/min/{1.73_m2} 1..200|mL/min 1..300'),
  m('urea', 'blood urea|serum urea|BUN|urea nitrogen|blood urea nitrogen', 'mmol/L 0.3..100|mg/dL 1..600'),
  m('sodium', 'Na|serum sodium', 'mmol/L 90..200|meq/L 90..200'),
  m('potassium', 'K|serum potassium', 'mmol/L 1..12|meq/L 1..12'),
  m('calcium', 'serum calcium|total calcium|ionised calcium', 'mmol/L 0.3..6|mg/dL 1.2..24'),
  m('magnesium', 'serum magnesium', 'mmol/L 0.1..10'),
  m('phosphate', 'serum phosphate', 'mmol/L 0.1..10|mg/dL 0.3..31'),
  m('glucose', 'blood glucose|blood sugar|plasma glucose|capillary glucose', 'mmol/L 0.3..100|mg/dL 5..1800'),
  m('INR', 'international normalised ratio|PT-INR|prothrombin INR|prothrombin time INR', '1 0.5..20'),
  m('prothrombin time', 'PT|quick|thromboplastin time', 's 5..200|% 1..200'),
  m('aPTT', 'APTT|PTT|activated partial thromboplastin time|partial thromboplastin time', 's 10..400'),
  m('activated clotting time', 'ACT', 's 50..1500'),
  m('platelets', 'platelet count|thrombocytes|PLT|thrombocyte count|platelet', '10*9/L 1..3000'),
  m('platelet volume', 'mean platelet volume|MPV|platelet function|platelet distribution width|platelet width'),
  m('fibrinogen', 'plasma fibrinogen', 'g/L 0.1..20'),
  m('D-dimer', 'D dimer|D-dimers', 'mg/L 0.01..200'),
  m('anti-Xa', 'anti Xa activity|anti-factor Xa', '[iU]/mL 0..10'),
  m('haemoglobin', 'Hb|Hgb|haemoglobin concentration|blood haemoglobin', 'g/L 15..260|mmol/L 0.9..16.5'),
  m('glycated haemoglobin', 'haemoglobin A1c|HbA1c|A1c|glycosylated haemoglobin', '% 2..25|mmol/mol 5..250'),
  m('haematocrit', 'Hct|packed cell volume|PCV', '% 5..80|1 0.05..0.8'),
  m('white cells', 'white cell count|leucocytes|WBC|white blood cells|leukocytes|white blood cell count|leukocyte count|leucocyte count', '10*9/L 0..1000'),
  m('neutrophils', 'neutrophil count|absolute neutrophil count|ANC', '10*9/L 0..500'),
  m('red cells', 'erythrocytes|RBC|red blood cells|red cell count', '10*12/L 0.5..10'),
  m('bilirubin', 'total bilirubin|serum bilirubin|bilirubin total', 'umol/L 1..1500|mg/dL 0.05..90'),
  m('direct bilirubin', 'conjugated bilirubin|bilirubin direct', 'umol/L 0..1200|mg/dL 0..70'),
  m('albumin', 'serum albumin', 'g/L 5..70'),
  m('alkaline phosphatase', 'ALP|AP', 'U/L 1..10000'),
  m('gamma-glutamyl transferase', 'GGT|gamma GT|GGTP', 'U/L 1..10000'),
  m('alanine aminotransferase', 'ALT|GPT|ALAT|SGPT', 'U/L 1..50000'),
  m('aspartate aminotransferase', 'AST|GOT|ASAT|SGOT', 'U/L 1..50000'),
  m('lactate dehydrogenase', 'LDH', 'U/L 10..50000'),
  m('amylase', 'serum amylase|drain amylase', 'U/L 1..200000'),
  m('lipase', 'serum lipase', 'U/L 1..100000'),
  m('C-reactive protein', 'CRP', 'mg/L 0..1000'),
  m('procalcitonin', 'PCT', 'ug/L 0..1000'),
  m('lactate', 'serum lactate|lactic acid|arterial lactate', 'mmol/L 0.1..40|mg/dL 1..360'),
  m('troponin', 'troponin T|troponin I|high-sensitivity troponin'),
  m('thyroid stimulating hormone', 'TSH|thyrotropin'),
  m('alpha-fetoprotein', 'AFP|alpha fetoprotein'),
  m('prostate specific antigen', 'PSA', 'ug/L 0..20000'),
  m('ammonia', 'NH3', 'umol/L 1..2000'),
  m('oxygen tension', 'pO2|PaO2|arterial oxygen tension', 'kPa 1..90|mm[Hg] 8..680'),
  m('carbon dioxide tension', 'pCO2|PaCO2', 'kPa 0.5..30|mm[Hg] 4..230'),
];

const table = new NameTable(analytes, {
  qualifiers:
    'serum plasma blood venous arterial capillary repeat repeated last latest baseline admission fasting first before after level value concentration count total from on morning s p b',
  cuts: 'before after on at since by from',
});

/** Finds what was measured by its name. */
export const analyteNamed = (what: string): Analyte | undefined => table.find(what)?.row;

/** The same with how it was found. */
export const analyteMatch = (what: string): Match<Analyte> | undefined => table.find(what);
