import type { DeviceDetails } from '../../devices/types.js';
import { type Finding, finding } from '../../findings/finding.js';
import { message } from '../../findings/message.js';
import { Decimal } from '../../record/decimal.js';
import { entriesOf } from '../../record/entries.js';
import { printQuantity } from '../../record/quantity.js';
import type { CaseRecord, DrugGiven } from '../../record/schema/record.js';
import { drugKey } from '../../trade/drugs/table.js';
import { lastDoses } from '../bleeding/last-dose.js';
import { anticoagulantPlans } from '../bleeding/plan.js';
import type { BleedingRisk } from '../bleeding/table.js';
import { restartsBefore, unsaidAnticoagulants } from '../bleeding/unsaid.js';
import { assessed, type Calculation, type CalculationBase, notAssessed } from '../calculation.js';
import { amount, input, milligrams } from '../labs/measure.js';
import type { ClinicalLimits } from '../limits.js';
import { plainName } from '../look-up.js';
import { drugNamed } from '../named.js';
import { allergies } from './allergy.js';
import { doseFindings, doseIsPossible } from './doses.js';
import { fasting } from './fasting.js';
import { byDrug, type Given } from './given.js';
import { heparinAfterHit } from './heparin.js';
import { localAnaesthetics } from './local-anaesthetic.js';
import { prophylaxis } from './prophylaxis.js';
import { repeatedDoses, unsaidDrugs } from './repeated.js';
import { sedationFindings } from './sedation.js';
import { allergyUnsaid, prophylaxisTold } from './told.js';
import { drugsWithConditions } from './with-condition.js';

export interface DrugAssessment {
  readonly calculations: readonly Calculation[];
  readonly findings: readonly Finding[];
}

/** Totals of what was given, and its times and doses against the tables. */
export function assessDrugs(
  record: CaseRecord,
  limits: ClinicalLimits['drugs'],
  devices: ReadonlyMap<string, DeviceDetails> = new Map(),
  risk?: BleedingRisk,
): DrugAssessment {
  const given = entriesOf(record.drugs).map((drug, index): Given => ({ drug, path: `drugs[${index}]` }));
  const parts = [
    { calculations: totals(record, given), findings: reversals(given) },
    localAnaesthetics(record, given, limits),
    prophylaxis(record, given, limits),
    lastDoses(record, limits, risk),
    fasting(record, limits),
    {
      calculations: [],
      findings: [
        ...doseFindings(record, given, limits.doseFactor),
        ...(limits.doseFactor ? repeatedDoses(record, given) : []),
        ...unsaidDrugs(record, given),
        ...allergies(record, given, devices),
        ...heparinAfterHit(record, given, devices),
        ...drugsWithConditions(record, given),
        ...unsaidAnticoagulants(record),
        ...restartsBefore(record),
        ...anticoagulantPlans(record),
        ...allergyUnsaid(record),
        ...prophylaxisTold(record),
        ...sedationFindings(record, given),
      ],
    },
  ];
  return {
    calculations: parts.flatMap(part => part.calculations),
    findings: parts.flatMap(part => part.findings),
  };
}

/** One total for each drug of sedation, analgesia and reversal, in the unit of its first dose. */
function totals(record: CaseRecord, given: readonly Given[]): Calculation[] {
  const counted = given.filter(({ drug }) => ['sedation', 'analgesia', 'reversal'].includes(drug.for ?? ''));
  return byDrug(counted, drug => `${drugKey(drug.drug.text)}/${drug.for}`).flatMap((group): Calculation[] => {
    const first = group[0]?.drug;
    if (!first) return [];
    const base: CalculationBase = {
      key: `total/${plainName(first.drug.text)}/${first.for ?? ''}`,
      group: 'drugs',
      what: message('calculation.total', {
        drug: drugNamed(first.drug.text),
        purpose: { term: 'purpose', value: first.for ?? '' },
      }),
      rule: message('rule.sum'),
      basis: message('basis.arithmetic'),
    };
    const refused = group.find(({ drug }) => !doseIsPossible(record, drug));
    const inputs = group.map(({ drug, path }) => input(drug.at.clock, drug.dose, `${path}.dose`));
    if (refused)
      return [
        notAssessed(base, message('why.implausible', { value: { quantity: refused.drug.dose } }), inputs),
      ];
    const { unit, code } = first.dose;
    // Grams and milligrams are two dimensions in the table of units: milligrams stand between them.
    const per = milligrams({ value: '1', unit, code });
    const doses = group.map(({ drug: { dose } }) =>
      per ? milligrams(dose)?.div(per) : (amount(dose, code) ?? same(dose, code)),
    );
    const sum = doses.reduce((a, b) => (a && b ? a.plus(b) : undefined));
    if (!sum) return [notAssessed(base, message('why.doses'), inputs)];
    return [assessed(base, { value: sum.toString(), unit, code }, inputs)];
  });
}

/** Units without a factor (MBq, mmol) add up when they are the same. */
function same({ value, code, comparator }: DrugGiven['dose'], wanted: string): Decimal | undefined {
  return code === wanted && !comparator ? new Decimal(value) : undefined;
}

/** Sedation that had to be reversed is worth a line: what was reversed may come back when the antidote wears off. */
function reversals(given: readonly Given[]): Finding[] {
  return given
    .filter(({ drug }) => drug.for === 'reversal')
    .map(({ drug, path }) =>
      finding('clinical.reversal-given', path, {
        drug: drug.drug.text,
        dose: printQuantity(drug.dose),
        time: drug.at.clock,
      }),
    );
}
