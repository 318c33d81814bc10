import { Temporal } from 'temporal-polyfill';
import { message } from '../../findings/message.js';
import type { Decimal } from '../../record/decimal.js';
import type { Quantity } from '../../record/quantity.js';
import type { CaseRecord } from '../../record/schema/record.js';
import { isCalendarDate } from '../../record/time.js';
import {
  assessed,
  type Calculation,
  type CalculationBase,
  type Input,
  inputOf,
  notAssessed,
  source,
} from '../calculation.js';
import { amount, input } from '../labs/measure.js';
import type { ClinicalLimits } from '../limits.js';
import type { Radiation } from './slip.js';

/** The sum of a dose over this case and earlier ones. */
export interface DoseTotal {
  readonly field: 'airKerma' | 'kermaAreaProduct';
  readonly calculation: Calculation;
  /** In the unit of its levels; a lower bound when an earlier figure is missing. Absent when it was not assessed. */
  readonly sum?: Decimal;
}

const doses = [
  { field: 'airKerma', kind: 'air-kerma-cumulative', unit: 'Gy', code: 'Gy' },
  {
    field: 'kermaAreaProduct',
    kind: 'kerma-area-cumulative',
    unit: 'Gy·cm²',
    code: 'Gy.cm2',
  },
] as const;

/** Doses of this case and of earlier cases of the same patient within the window, where any are recorded. */
export function doseTotals(
  record: CaseRecord,
  given: Radiation,
  limits: ClinicalLimits['radiation'],
): DoseTotal[] {
  const { windowDays } = limits;
  if (!windowDays || !given.earlier) return [];
  const day = Temporal.PlainDate.from(record.case.date);
  const from = day.subtract({ days: Math.ceil(Number(windowDays.value)) });
  const counted = given.earlier
    .map((entry, index) => ({ entry, path: `radiation.earlier[${index}]` }))
    .filter(({ entry }) => isWithin(entry.date, from, day) && entry.case?.value !== record.case.id);
  if (counted.length === 0) return [];
  return doses.flatMap(({ field, kind, unit, code }): DoseTotal[] => {
    if (counted.every(({ entry }) => !entry[field])) return [];
    const base: CalculationBase = {
      key: kind,
      group: 'radiation',
      what: message(`calculation.${kind}`, {
        n: { number: String(counted.length) },
        days: { number: windowDays.value },
      }),
      rule: message('rule.cumulative'),
      basis: message('basis.window', { source: source(windowDays.source) }),
    };
    const inputs: Input[] = [
      ...(given[field] ? [input(message('input.this-case'), given[field], `radiation.${field}`)] : []),
      ...counted.map(({ entry, path }) =>
        entry[field]
          ? input({ day: entry.date }, entry[field], `${path}.${field}`)
          : inputOf({ day: entry.date }, message('value.not-recorded'), path),
      ),
    ];
    const own = amount(given[field], code);
    if (!own) {
      const why = message('why.dose-not-recorded');
      return [{ field, calculation: notAssessed(base, why, inputs) }];
    }
    const earlier = counted.map(({ entry }) => amount(entry[field], code));
    const sum = earlier.reduce((total: Decimal, dose) => (dose ? total.plus(dose) : total), own);
    const whole = earlier.every(dose => dose !== undefined);
    const quantity: Quantity = { value: sum.toString(), unit, code };
    const calculation = whole
      ? assessed(base, quantity, inputs)
      : assessed(
          base,
          { ...quantity, comparator: '>=' },
          inputs,
          message('result.at-least', { amount: { quantity } }),
        );
    return [{ field, calculation, sum }];
  });
}

function isWithin(date: string, from: Temporal.PlainDate, to: Temporal.PlainDate): boolean {
  if (!isCalendarDate(date)) return false;
  const day = Temporal.PlainDate.from(date);
  return Temporal.PlainDate.compare(day, from) >= 0 && Temporal.PlainDate.compare(day, to) <= 0;
}
