import type { CodeableConcept, Medication, MedicationAdministration, Ratio } from 'fhir/r4.js';
import { doseIn, isVolume, strengthOf } from '../../clinical/drugs/amount.js';
import { amount } from '../../clinical/labs/measure.js';
import { exactQuantity } from '../../json/write.js';
import type { Decimal } from '../../record/decimal.js';
import { printQuantity } from '../../record/quantity.js';
import type { ContrastGiven, DrugGiven } from '../../record/schema/record.js';
import { drugsIn, elementOf } from '../../trade/drugs/table.js';
import { drugConcept } from '../concepts.js';
import type { MappingOptions } from '../options.js';

const UCUM = 'http://unitsofmeasure.org';
const NAMES = { mg: 'mg', '[iU]': 'IU' } as const;
type Unit = keyof typeof NAMES;

/** Percent of these is by volume, not by mass. Common practice, no source. */
const BY_VOLUME = /\b(?:ethanol|alcohol|oxygen|nitrous)\b/i;
/** In what is not a solution percent is not 10 mg in 1 mL. */
const NO_SOLUTION: ReadonlySet<DrugGiven['route']> = new Set(['inhaled', 'topical']);
/** `1:1000` is 1 g in 1000 mL; a smaller ratio is how a drug was mixed. Common practice, no source. */
const MIXED = /^\s*1\s*(?::|in)\s*\d{1,2}\s*$/i;

/** Amount of a drug in 1 mL of what was given; undefined where its words leave open of what, or how it is counted. */
function strengthGiven({ drug, strength = '', route }: DrugGiven) {
  const words = `${drug.text} ${strength}`;
  if (NO_SOLUTION.has(route) || BY_VOLUME.test(words) || MIXED.test(strength)) return undefined;
  if (new Set(drugsIn(words).map(({ name }) => name)).size > 1) return undefined;
  const read = strengthOf(strength) ?? strengthOf(drug.text);
  // Thirds have no end; they are left to the words.
  return read && read.perMl.decimalPlaces() <= 9 ? read : undefined;
}

/** A drug as it was given: by its strength in a contained Medication where that can be told, else by its name. */
export function drugGiven(options: MappingOptions, given: DrugGiven): Product {
  const code = drugConcept(options, given.drug);
  const read = strengthGiven(given);
  if (!read) return { medicationCodeableConcept: code };
  return product(code, code, perMillilitre(read.perMl.toFixed(), read.unit));
}

/** The dose in words: as written, and the mass or units of a volume. */
export function doseWords(given: DrugGiven): string {
  const written = printQuantity(given.dose);
  const unit = strengthGiven(given)?.unit;
  const comes = unit && isVolume(given.dose) ? doseIn(given, unit) : undefined;
  return unit && comes ? `${written} (${figure(comes)} ${NAMES[unit]})` : written;
}

/** Contrast as it was given, with the iodine or gadolinium in it where agent and concentration tell. */
export function contrastGiven(options: MappingOptions, { agent, concentration }: ContrastGiven): Product {
  const code = drugConcept(options, agent);
  const element = elementOf(agent.text);
  const strength = amount(concentration, 'mg/mL');
  if (!concentration || !strength || !element || element === 'none')
    return { medicationCodeableConcept: code };
  const digits = concentration.code === 'mg/mL' ? concentration.value : strength.toFixed();
  return product(code, { text: element }, perMillilitre(digits));
}

/** The volume in words, with the iodine or gadolinium that it comes to. */
export function contrastWords({ agent, concentration, volume }: ContrastGiven): string {
  const element = elementOf(agent.text);
  const strength = amount(concentration, 'mg/mL');
  const ml = amount(volume, 'mL');
  const written = printQuantity(volume);
  return ml && strength && element && element !== 'none'
    ? `${written} (${figure(ml.times(strength))} mg of ${element})`
    : written;
}

type Product = Pick<
  MedicationAdministration,
  'contained' | 'medicationCodeableConcept' | 'medicationReference'
>;

function product(code: CodeableConcept, item: CodeableConcept, strength: Ratio): Product {
  const medication: Medication = {
    resourceType: 'Medication',
    id: 'medication',
    code,
    ingredient: [{ itemCodeableConcept: item, isActive: true, strength }],
  };
  return {
    contained: [medication],
    medicationReference: {
      reference: '#medication',
      ...(code.text !== undefined && { display: code.text }),
    },
  };
}

function perMillilitre(digits: string, unit: Unit = 'mg'): Ratio {
  return {
    numerator: exactQuantity(digits, { unit: NAMES[unit], system: UCUM, code: unit }),
    denominator: exactQuantity('1', { unit: 'mL', system: UCUM, code: 'mL' }),
  };
}

const figure = (value: Decimal): string => value.toSignificantDigits(12).toFixed();
