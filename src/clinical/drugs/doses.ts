import { type Finding, finding } from '../../findings/finding.js';
import { message, type Param } from '../../findings/message.js';
import { Decimal } from '../../record/decimal.js';
import type { Quantity } from '../../record/quantity.js';
import type { CaseRecord, DrugGiven } from '../../record/schema/record.js';
import { unitOfCode } from '../../record/units.js';
import { caseKindNamed } from '../../trade/cases/table.js';
import type { Amount, Dosing } from '../../trade/drugs/doses/dosing.js';
import { DOSES_BASIS, dosingsOf } from '../../trade/drugs/doses/table.js';
import { type Drug, drugsIn } from '../../trade/drugs/table.js';
import { isChild } from '../age.js';
import { weightOf } from '../body.js';
import type { Limit } from '../limits.js';
import { wouldFit } from '../plausible.js';
import { doseIn, isVolume } from './amount.js';
import type { Given } from './given.js';

/** Under this part of the usual least a dose is not believed. */
const UNDER = '0.1';
/** Doses by weight are rounded to what a syringe or a tablet holds. */
const ROUNDING = '1.25';
/** kg: a dose that is within its limit at this weight needs no weight of an adult. */
export const LIGHT_ADULT = 40;
/** kg: whom the doses of an adult are for. */
const ADULT = 70;

/** Who was given the doses. Child: under 18 years at any reading of the birth date. */
interface Person {
  readonly child: boolean;
  readonly kg?: Decimal;
  /** Above so many times the usual most a dose is not believed. */
  readonly factor: string;
}

const personOf = (record: CaseRecord, factor = '2'): Person => {
  const weight = weightOf(record);
  return { child: isChild(record), factor, ...('kg' in weight && { kg: weight.kg }) };
};

/** Rows for the drug that a text names, if it names one (an adrenaline mixture is its other part). */
function rowsFor(text: string): { drug: Drug; rows: readonly Dosing[] } | undefined {
  const named = drugsIn(text);
  const [drug, more] = named.length > 1 ? named.filter(({ name }) => name !== 'adrenaline') : named;
  return drug && !more ? { drug, rows: dosingsOf(drug.name) } : undefined;
}

/** Rows for the route of a dose, those of any route where none is for it. */
const forRoute = (rows: readonly Dosing[], { route }: DrugGiven): readonly Dosing[] => {
  const own = rows.filter(row => row.routes.some(one => one === route));
  return own.length > 0 ? own : rows;
};

/** Bounds of a dose that is believed, in the unit of the row, and the limit by weight where there is one. */
function bounds(
  row: Dosing,
  { child, kg, factor }: Person,
): { least: Decimal; most: Decimal; byWeight?: Decimal } {
  const scale = child && kg?.lt(ADULT) ? kg.div(ADULT) : new Decimal(1);
  const perKg = child ? row.child : row.adult;
  return {
    least: row.least.value.times(scale).times(UNDER),
    most: row.most.value.times(factor),
    ...(perKg && kg && { byWeight: perKg.value.times(kg).times(ROUNDING) }),
  };
}

type Verdict = 'believed' | 'unlikely' | 'over weight' | 'other unit' | 'no strength';

/** What the row of one route says of a dose. */
function judge(
  rows: readonly Dosing[],
  given: DrugGiven,
  person: Person,
): { verdict: Verdict; row?: Dosing } {
  const verdicts = rows.flatMap((row): { verdict: Verdict; row: Dosing }[] => {
    const dose = doseIn(given, row.unit);
    if (!dose) return [];
    const { least: usual, most, byWeight } = bounds(row, person);
    // A mass beside a strength is likely to be the volume: then less than the usual least is not believed.
    const asVolume = given.strength !== undefined && !isVolume(given.dose) && !person.child;
    const least = asVolume ? row.least.value : usual;
    if (dose.lt(least) || dose.gt(most)) return [{ verdict: 'unlikely', row }];
    return [{ verdict: byWeight && dose.gt(byWeight) ? 'over weight' : 'believed', row }];
  });
  const best =
    verdicts.find(({ verdict }) => verdict === 'believed') ??
    verdicts.find(({ verdict }) => verdict === 'over weight') ??
    verdicts[0];
  if (best) return best;
  const [row] = rows;
  if (!row || given.dose.comparator) return { verdict: 'believed' };
  return { verdict: isVolume(given.dose) ? 'no strength' : 'other unit', row };
}

/** Whether a dose can be right in its unit, as far as the table tells; a volume without a strength can. */
export function doseIsPossible(record: CaseRecord, given: DrugGiven): boolean {
  const found = rowsFor(given.drug.text);
  if (!found) return true;
  const { verdict } = judge(forRoute(found.rows, given), given, personOf(record));
  return verdict !== 'unlikely' && verdict !== 'other unit';
}

/** Doses against the table of usual doses: amount, weight, route, strength; and a weight that they would need. */
export function doseFindings(
  record: CaseRecord,
  given: readonly Given[],
  factor: Limit | undefined,
): Finding[] {
  if (!factor) return [];
  const person = personOf(record, factor.value);
  const chemoembolisation = caseKindNamed(record.case.kind)?.rows.some(({ name }) =>
    name.includes('chemoembolisation'),
  );
  const findings = given.flatMap(({ drug, path }): Finding[] => {
    const found = rowsFor(drug.drug.text);
    if (!found || found.rows.length === 0) return [];
    return [
      ...doseFinding(found.rows, drug, path, person),
      ...routeFinding(found, drug, path, chemoembolisation === true),
    ];
  });
  return [...findings, ...weightFinding(record, given, person)];
}

function doseFinding(rows: readonly Dosing[], drug: DrugGiven, path: string, person: Person): Finding[] {
  const here = forRoute(rows, drug);
  const { verdict, row } = judge(here, drug, person);
  if (verdict === 'believed' || !row) return [];
  const name = drug.drug.text;
  if (verdict === 'no strength')
    return [
      finding(
        'clinical.strength-missing',
        path,
        { drug: name },
        row.unit === '[iU]' ? { remedy: message('answer.strengthInUnits') } : {},
      ),
    ];
  const perKg = person.child ? row.child : row.adult;
  if (verdict === 'over weight' && perKg && person.kg) {
    const dose = doseIn(drug, row.unit) ?? new Decimal(0);
    const params = {
      drug: name,
      dose: { quantity: drug.dose },
      ratio: perWeight(dose.div(person.kg).div(perKg.value).times(perKg.shown.value), perKg),
      limit: perWeight(new Decimal(perKg.shown.value), perKg),
      would: wouldFit(explanations(here, drug, person)),
    };
    return [finding('clinical.drug-dose-by-weight', `${path}.dose`, params, { basis: DOSES_BASIS })];
  }
  const params = {
    drug: name,
    dose: { quantity: drug.dose },
    range: message('range.amounts', { least: shown(row.least), most: shown(row.most) }),
    would: wouldFit(explanations(here, drug, person)),
  };
  return [finding('clinical.drug-dose-unlikely', `${path}.dose`, params, { basis: DOSES_BASIS })];
}

const shown = ({ shown: { value, unit, code } }: Amount): Param => ({ quantity: { value, unit, code } });

const perWeight = (value: Decimal, { shown: { unit, code } }: Amount): Param => ({
  quantity: { value: value.toSignificantDigits(3).toString(), unit: `${unit}/kg`, code: `${code}/kg` },
});

/** The same figure in another unit, and with its point moved, where that is a usual dose. */
function explanations(rows: readonly Dosing[], drug: DrugGiven, person: Person): Quantity[] {
  const { dose } = drug;
  const fits = (other: Quantity) => {
    const changed = { ...drug, dose: other };
    return rows.some(row => {
      const value = doseIn(changed, row.unit);
      const { byWeight } = bounds(row, person);
      const least = person.child ? bounds(row, person).least : row.least.value;
      return value?.gte(least) === true && value.lte(row.most.value) && !(byWeight && value.gt(byWeight));
    });
  };
  const { value, code } = dose;
  const units = ['g', 'mg', 'ug', '[iU]', 'mL']
    .filter(other => other !== code)
    .map(other => ({ value, unit: unitOfCode(other)?.display ?? other, code: other }))
    .filter(fits);
  const moved = ['0.1', '10', '0.01', '100', '0.001', '1000']
    .map(factor => ({ value: new Decimal(value).times(factor).toString(), unit: dose.unit, code }))
    .find(fits);
  return [...units, ...(moved ? [moved] : [])].slice(0, 3);
}

/** By mouth what is only injected, into an artery what belongs into a vein, and the other way round. */
function routeFinding(
  { drug, rows }: { drug: Drug; rows: readonly Dosing[] },
  given: DrugGiven,
  path: string,
  chemoembolisation: boolean,
): Finding[] {
  const { route } = given;
  const local = drug.families.some(family => family.endsWith('local anaesthetic'));
  const known = route === 'other' || rows.some(row => row.routes.some(one => one === route));
  const unlikely =
    !known ||
    (local &&
      drug.name !== 'prilocaine' &&
      given.for === 'local anaesthesia' &&
      ['intravenous', 'intra-arterial', 'oral', 'rectal'].includes(route)) ||
    (chemoembolisation && drug.families.includes('cytotoxic') && route === 'intravenous');
  if (!unlikely) return [];
  const params = { drug: given.drug.text, route: { term: 'route', value: route } } as const;
  return [finding('clinical.route-unlikely', `${path}.route`, params, { basis: DOSES_BASIS })];
}

/** A child that was given anything, or a dose that is safe for some adults only, and no weight. */
function weightFinding(record: CaseRecord, given: readonly Given[], { child, kg }: Person): Finding[] {
  if (kg || record.patient.weight) return [];
  const needs = given.find(({ drug }) => {
    const rows = rowsFor(drug.drug.text)?.rows ?? [];
    if (child) return rows.length > 0;
    return forRoute(rows, drug).some(row => {
      const dose = doseIn(drug, row.unit);
      return row.adult !== undefined && dose?.gt(row.adult.value.times(LIGHT_ADULT).times(ROUNDING));
    });
  });
  if (!needs) return [];
  const { drug } = needs;
  const what = message(child ? 'weight.child' : 'weight.dose', {
    drug: drug.drug.text,
    dose: { quantity: drug.dose },
  });
  return [finding('clinical.weight-missing', 'patient.weight', { what }, { basis: DOSES_BASIS })];
}
