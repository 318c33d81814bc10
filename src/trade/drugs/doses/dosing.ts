import { Decimal } from '../../../record/decimal.js';

/** Routes of the record, by the short form that the tables use; `other` is never judged. */
const routeNames = {
  iv: 'intravenous',
  ia: 'intra-arterial',
  po: 'oral',
  sc: 'subcutaneous',
  im: 'intramuscular',
  li: 'local infiltration',
  pr: 'rectal',
  inh: 'inhaled',
  top: 'topical',
  tract: 'into the tract',
} as const;

export type DosingRoute = (typeof routeNames)[keyof typeof routeNames];

/** UCUM code of a dose: masses are compared in mg, everything else in its own unit. */
export type DoseUnit = 'mg' | '[iU]' | 'mL' | 'mmol';

/** An amount in the unit of its row. */
export interface Amount {
  readonly value: Decimal;
  /** As the table has it, to be shown. */
  readonly shown: { readonly value: string; readonly unit: string; readonly code: string };
}

/** Usual single doses of a drug by some routes. */
export interface Dosing {
  /** Name of the row in the table of drugs. */
  readonly drug: string;
  readonly routes: readonly DosingRoute[];
  readonly unit: DoseUnit;
  readonly least: Amount;
  readonly most: Amount;
  /** Most in one dose for each kg: of a child, and of an adult where doses go by weight. */
  readonly child?: Amount;
  readonly adult?: Amount;
}

const unitsOfRows = {
  g: { unit: 'mg', display: 'g', factor: 1000 },
  mg: { unit: 'mg', display: 'mg', factor: 1 },
  ug: { unit: 'mg', display: 'µg', factor: '0.001' },
  IU: { unit: '[iU]', display: 'IU', factor: 1 },
  mL: { unit: 'mL', display: 'mL', factor: 1 },
  mmol: { unit: 'mmol', display: 'mmol', factor: 1 },
} as const;

function amountOf(value: string, unit: keyof typeof unitsOfRows): Amount {
  const { factor, display } = unitsOfRows[unit];
  const code = unit === 'IU' ? '[iU]' : unit;
  return { value: new Decimal(value).times(factor), shown: { value, unit: display, code } };
}

/**
 * One row of a table: drug, routes parted by blanks, usual single dose of an adult (`10..200 ug`), and the most in one
 * dose for each kg of a child and of an adult (both in the unit of the dose; empty: doses do not go by weight).
 */
export function u(drug: string, routes: string, range: string, child = '', adult = ''): Dosing {
  const [, least = '', most = '', unit = ''] = /^([\d.]+)\.\.([\d.]+) (\w+)$/.exec(range) ?? [];
  if (!isUnit(unit)) throw new RangeError(`${drug}: '${range}' is no range of doses`);
  return {
    drug,
    routes: routes
      .split(' ')
      .filter(isRoute)
      .map(name => routeNames[name]),
    unit: unitsOfRows[unit].unit,
    least: amountOf(least, unit),
    most: amountOf(most, unit),
    ...(child !== '' && { child: amountOf(child, unit) }),
    ...(adult !== '' && { adult: amountOf(adult, unit) }),
  };
}

const isUnit = (text: string): text is keyof typeof unitsOfRows => Object.hasOwn(unitsOfRows, text);
const isRoute = (text: string): text is keyof typeof routeNames => Object.hasOwn(routeNames, text);
