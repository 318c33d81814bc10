/** What a quantity measures; a field of the record accepts units of one dimension (or of a few). */
export type Dimension =
  | 'length'
  | 'calibre'
  | 'area'
  | 'volume'
  | 'mass'
  | 'dose'
  | 'pressure'
  | 'duration'
  | 'molarConcentration'
  | 'massConcentration'
  | 'cellCount'
  | 'kermaArea'
  | 'kerma'
  | 'kermaLength'
  | 'flow'
  | 'volumeRate'
  | 'temperature'
  | 'ratio'
  | 'frequency'
  | 'activity'
  | 'count'
  | 'catalysis'
  | 'clearance'
  | 'activityConcentration'
  | 'osmolality';

/** One unit of the table. */
export interface Unit {
  /** UCUM code. Needle gauge has none: it is written as a UCUM annotation. */
  readonly code: string;
  readonly dimension: Dimension;
  /** How Casetally prints it. */
  readonly display: string;
  /**
   * Size in the base unit of its dimension, as an exact decimal (`num`/`den` where a decimal would not be exact).
   * Absent where conversion needs more than a factor (needle gauge, temperature, international units).
   */
  readonly factor?: { readonly num: string; readonly den: string };
  /** Other ways people write it. Compared without case only when `exactCase` is not set. */
  readonly spellings: readonly string[];
}

/** One row: UCUM code, dimension, printed unit, factor (`num` or `num/den`, empty for none), spellings split by `|`. */
function u(code: string, dimension: Dimension, display: string, factor: string, spellings: string): Unit {
  const [num = '', den = '1'] = factor.split('/');
  return {
    code,
    dimension,
    display,
    ...(num !== '' && { factor: { num, den } }),
    spellings: spellings.split('|'),
  };
}

/**
 * Units that a case record may be written in. Base units: mm, mm2, mL, g, mg (drug dose), kPa, min, µmol/L, mg/mL,
 * 10^9/L, Gy·cm2, Gy, mGy·cm, mL/min, mL/kg/h, U/L, %, 1. Conversions are exact by definition: 1 in = 25.4 mm,
 * 1 Fr = 1/3 mm, 1 atm = 101.325 kPa, 1 bar = 100 kPa, 1 µGy·m2 = 0.01 Gy·cm2.
 */
// biome-ignore format: a table reads best with one unit a line
export const units: readonly Unit[] = [
  u('mm', 'length', 'mm', '1', 'mm|millimetre|millimetres|millimeter|millimeters'),
  u('cm', 'length', 'cm', '10', 'cm|centimetre|centimetres|centimeter|centimeters'),
  u('m', 'length', 'm', '1000', 'm|metre|metres|meter|meters'),
  u('um', 'length', 'µm', '1/1000', 'um|µm|micron|microns|micrometre|micrometres'),
  u('[in_i]', 'length', 'in', '25.4', 'in|inch|inches|"|″|[in_i]'),
  u('[Ch]', 'calibre', 'Fr', '1/3', 'Fr|French|F|Ch|Charrière|[Ch]'),
  u('{gauge}', 'calibre', 'G', '', 'G|gauge|ga|{gauge}'),
  u('mm2', 'area', 'mm²', '1', 'mm2|mm²'),
  u('cm2', 'area', 'cm²', '100', 'cm2|cm²'),
  u('mL', 'volume', 'mL', '1', 'mL|ml|cc|millilitre|millilitres|milliliter|milliliters'),
  u('L', 'volume', 'L', '1000', 'L|l|litre|litres|liter|liters'),
  u('uL', 'volume', 'µL', '1/1000', 'uL|µL'),
  u('kg', 'mass', 'kg', '1000', 'kg|kilogram|kilograms|kilo|kilos|kgs'),
  u('[lb_av]', 'mass', 'lb', '453.59237', 'lb|lbs|pound|pounds|[lb_av]'),
  u('g', 'mass', 'g', '1', 'g|gram|grams'),
  u('mg', 'dose', 'mg', '1', 'mg|milligram|milligrams'),
  u('ug', 'dose', 'µg', '1/1000', 'ug|µg|mcg|microgram|micrograms|mcgs'),
  u('[iU]', 'activity', 'IU', '1', 'IU|units|unit|[iU]|iu|U|I.U.|IE|international units|international unit'),
  u('mmol', 'activity', 'mmol', '', 'mmol'),
  u('MBq', 'activity', 'MBq', '', 'MBq'),
  u('GBq', 'activity', 'GBq', '', 'GBq'),
  u('atm', 'pressure', 'atm', '101.325', 'atm|atmosphere|atmospheres'),
  u('bar', 'pressure', 'bar', '100', 'bar'),
  u('kPa', 'pressure', 'kPa', '1', 'kPa'),
  u('mm[Hg]', 'pressure', 'mmHg', '0.133322387415', 'mmHg|mm[Hg]|mm Hg|mmhg|mm hg|Torr|torr'),
  u('cm[H2O]', 'pressure', 'cmH2O', '0.0980665', 'cmH2O|cm[H2O]|cm H2O|cmH₂O|cm H₂O'),
  u('s', 'duration', 's', '1/60', 's|sec|second|seconds'),
  u('min', 'duration', 'min', '1', 'min|mins|minute|minutes'),
  u('h', 'duration', 'h', '60', 'h|hr|hour|hours'),
  u('d', 'duration', 'days', '1440', 'd|day|days'),
  u('wk', 'duration', 'weeks', '10080', 'wk|week|weeks'),
  u('mo', 'duration', 'months', '', 'mo|month|months'),
  u('a', 'duration', 'years', '', 'a|year|years'),
  u('umol/L', 'molarConcentration', 'µmol/L', '1', 'umol/L|µmol/L|umol/l|µmol/l|micromol/L|micromol/l|mcmol/L'),
  u('mmol/L', 'molarConcentration', 'mmol/L', '1000', 'mmol/L|mmol/l|mM'),
  u('nmol/L', 'molarConcentration', 'nmol/L', '0.001', 'nmol/L|nmol/l'),
  u('pmol/L', 'molarConcentration', 'pmol/L', '0.000001', 'pmol/L|pmol/l'),
  u('meq/L', 'molarConcentration', 'mEq/L', '', 'mEq/L|mEq/l|meq/L|meq/l|mval/L|mval/l'),
  u('mg/dL', 'massConcentration', 'mg/dL', '0.01', 'mg/dL|mg/dl|mg%|mg/100 mL|mg/100mL'),
  u('g/L', 'massConcentration', 'g/L', '1', 'g/L|g/l|gm/L'),
  u('g/dL', 'massConcentration', 'g/dL', '10', 'g/dL|g/dl|gm/dL|gm/dl|g%'),
  u('mg/L', 'massConcentration', 'mg/L', '0.001', 'mg/L|mg/l|ug/mL|µg/mL|mcg/mL|µg/ml|ug/ml'),
  u('mg/mL', 'massConcentration', 'mg/mL', '1', 'mg/mL|mgI/mL|mg I/mL|mgI/ml|mg/ml|mg I/ml'),
  u('ug/L', 'massConcentration', 'µg/L', '0.000001', 'ug/L|µg/L|ng/mL|ug/l|µg/l|ng/ml|mcg/L|mcg/l'),
  u('ng/L', 'massConcentration', 'ng/L', '0.000000001', 'ng/L|ng/l|pg/mL|pg/ml'),
  u('ug/dL', 'massConcentration', 'µg/dL', '0.00001', 'ug/dL|µg/dL|mcg/dL|µg/dl|ug/dl'),
  u('10*9/L', 'cellCount', '×10⁹/L', '1', '10*9/L|10^9/L|x10^9/L|×10⁹/L|x 10^9/L|× 10⁹/L|x10*9/L|G/L|G/l|10⁹/L|10⁹/l|x10⁹/L|x 10⁹/L|10^9/l|x10^9/l|10*9/l|10E9/L|10e9/L|x10E9/L|x10e9/L|Gpt/L|/nL|/nl|×10^9/L|× 10^9/L'),
  u('10*3/uL', 'cellCount', '×10³/µL', '1', '10*3/uL|10^3/uL|x10^3/uL|×10³/µL|K/uL|K/µL|k/µL|k/uL|K/mcL|10*3/µL|10^3/µL|x10^3/µL|x10³/µL|10³/µL|×10^3/µL|10^3/µl|10³/µl|x10^3/mcL|10E3/uL|10E3/µL|10e3/uL|x10E3/uL|10^3/mm3|x10^3/mm3|10³/mm³|thou/uL|Tsd/µL|Tsd/µl|thousand/uL'),
  u('/uL', 'cellCount', '/µL', '1/1000', '/uL|/µL|/µl|/mm3|/mm³|cells/uL|cells/µL|cells/mm3|cells/mm³|/cumm|/cmm'),
  u('10*12/L', 'cellCount', '×10¹²/L', '1000', '10*12/L|10^12/L|x10^12/L|×10¹²/L|x10¹²/L|10¹²/L|T/L|Tpt/L|10E12/L|10^12/l|x10^12/l'),
  u('10*6/uL', 'cellCount', '×10⁶/µL', '1000', '10*6/uL|10^6/uL|x10^6/uL|×10⁶/µL|10^6/µL|x10^6/µL|10⁶/µL|M/uL|M/µL|10^6/mm3'),
  u('Gy.cm2', 'kermaArea', 'Gy·cm²', '1', 'Gy.cm2|Gy·cm2|Gy·cm²|Gycm2|Gy cm2|Gy*cm2|Gycm²'),
  u('dGy.cm2', 'kermaArea', 'dGy·cm²', '0.1', 'dGy.cm2|dGy·cm2|dGy·cm²|dGycm2|dGy cm2|dGycm²'),
  u('cGy.cm2', 'kermaArea', 'cGy·cm²', '0.01', 'cGy.cm2|cGy·cm2|cGy·cm²|cGycm2|cGy cm2|cGycm²'),
  u('mGy.cm2', 'kermaArea', 'mGy·cm²', '0.001', 'mGy.cm2|mGy·cm2|mGy·cm²|mGycm2|mGy cm2|mGycm²'),
  u('uGy.m2', 'kermaArea', 'µGy·m²', '0.01', 'uGy.m2|µGy.m2|µGy·m2|µGy·m²|uGym2|µGym2|µGy m2|µGym²'),
  u('Gy.m2', 'kermaArea', 'Gy·m²', '10000', 'Gy.m2|Gy·m2|Gy·m²|Gym2'),
  u('Gy', 'kerma', 'Gy', '1', 'Gy'),
  u('mGy', 'kerma', 'mGy', '0.001', 'mGy'),
  u('mGy.cm', 'kermaLength', 'mGy·cm', '1', 'mGy.cm|mGy·cm|mGycm|mGy cm|mGy*cm|mGy-cm'),
  u('Gy.cm', 'kermaLength', 'Gy·cm', '1000', 'Gy.cm|Gy·cm|Gycm|Gy cm|Gy*cm|Gy-cm'),
  u('mL/min', 'flow', 'mL/min', '1', 'mL/min|ml/min|cc/min'),
  u('L/min', 'flow', 'L/min', '1000', 'L/min|l/min'),
  u('mL/min/{1.73_m2}', 'clearance', 'mL/min/1.73 m²', '', 'mL/min/1.73 m²|mL/min/1.73m²|mL/min/1.73 m2|mL/min/1.73m2|ml/min/1.73 m²|ml/min/1.73m²|ml/min/1.73 m2|ml/min/1.73m2|mL/min/1.73 m^2|mL/min/1.73m^2|mL/min/{1.73_m2}|mL/min per 1.73 m²|mL/min per 1.73 m2|ml/min per 1.73 m2'),
  u('mL/s', 'flow', 'mL/s', '60', 'mL/s|ml/s'),
  u('mL/h', 'flow', 'mL/h', '1/60', 'mL/h|ml/h'),
  u('mL/kg/h', 'volumeRate', 'mL/kg/h', '1', 'mL/kg/h|ml/kg/h'),
  u('Cel', 'temperature', '°C', '', '°C|C|Cel|degC|° C'),
  u('[degF]', 'temperature', '°F', '', '°F|degF|[degF]'),
  u('U/L', 'catalysis', 'U/L', '1', 'U/L|IU/L|U/l|IU/l|u/L|u/l|units/L|UI/L|E/L|mU/mL'),
  u('ukat/L', 'catalysis', 'µkat/L', '60', 'ukat/L|µkat/L|µkat/l|ukat/l'),
  u('[iU]/mL', 'activityConcentration', 'IU/mL', '', 'IU/mL|IU/ml|U/mL|U/ml|[iU]/mL|kIU/L|kU/L'),
  u('mosm/kg', 'osmolality', 'mOsm/kg', '', 'mOsm/kg|mosm/kg|mosmol/kg|mOsmol/kg'),
  u('/min', 'frequency', '/min', '1', '/min|per min|per minute|bpm|beats/min|breaths/min|1/min'),
  u('%', 'ratio', '%', '1', '%|percent|per cent'),
  u('1', 'count', '', '1', '|1'),
];

const exact = new Map<string, Unit>();
const folded = new Map<string, Unit>();
for (const unit of units) {
  for (const spelling of unit.spellings) {
    exact.set(spelling, unit);
    // A symbol is its case: MGy is a thousand million mGy. Only words may be written in any case.
    if (/^[a-z]{4,}$/i.test(spelling) && spelling !== unit.code) folded.set(spelling.toLowerCase(), unit);
  }
}

/**
 * Finds a unit by the way it was written. Case is forgiven for whole words (`French`, `minutes`) and never for symbols:
 * `mGy` and `MGy` do not meet.
 */
export function unitNamed(written: string): Unit | undefined {
  const text = written.normalize('NFC').replace(/μ/g, 'µ').trim().replace(/\s+/g, ' ');
  return exact.get(text) ?? folded.get(text.toLowerCase());
}

/** Finds a unit by its UCUM code. */
export function unitOfCode(code: string): Unit | undefined {
  return byCode.get(code);
}

const byCode: ReadonlyMap<string, Unit> = new Map(units.map(unit => [unit.code, unit]));
