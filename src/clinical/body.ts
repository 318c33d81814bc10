import { type Finding, finding } from '../findings/finding.js';
import { type Message, message } from '../findings/message.js';
import type { Decimal } from '../record/decimal.js';
import type { CaseRecord } from '../record/schema/record.js';
import { agesOn } from './age.js';
import { amount } from './labs/measure.js';
import { type Range, refused, within } from './plausible.js';

/**
 * Weight (kg) and height (cm) by completed years, each row up to the next: well beyond the outer curves of growth
 * charts, so that only what no child of that age comes to is left out. Common practice, no source.
 */
const byAge: readonly (readonly [
  years: number,
  weight: readonly [string, string],
  height: readonly [string, string],
])[] = [
  [0, ['0.3', '16'], ['20', '95']],
  [1, ['4', '24'], ['55', '110']],
  [2, ['6', '32'], ['62', '120']],
  [3, ['7', '38'], ['68', '130']],
  [4, ['8', '45'], ['72', '140']],
  [5, ['9', '52'], ['78', '150']],
  [6, ['10', '65'], ['82', '160']],
  [8, ['12', '85'], ['90', '175']],
  [10, ['14', '110'], ['95', '190']],
  [12, ['17', '150'], ['100', '205']],
  [14, ['20', '220'], ['100', '220']],
  [18, ['25', '400'], ['90', '250']],
];

/** Body mass index beyond which weight or height is wrong, kg/m². Common practice, no source. */
const INDEX = { adult: ['9', '90'], youth: ['8', '60'], child: ['7', '38'] } as const;
/** Completed years up to which the index of a child stays far under that of a grown person. */
const CHILD = 11;

/** Ranges of the ages that a birth date leaves open; those of any age where there is none. */
function rangesOf(record: CaseRecord): { weight: Range; height: Range } {
  const ages = agesOn(record.patient.birthDate, record.case.date) ?? { least: 0, most: 120 };
  const rows = byAge.filter(
    ([from], place) => from <= ages.most && (byAge[place + 1]?.[0] ?? Number.POSITIVE_INFINITY) > ages.least,
  );
  const span = (which: 1 | 2, unit: string): Range => {
    const ends = rows.map(row => row[which]);
    const numbers = (side: 0 | 1) => ends.map(end => Number(end[side]));
    return { unit, least: String(Math.min(...numbers(0))), most: String(Math.max(...numbers(1))) };
  };
  return { weight: span(1, 'kg'), height: span(2, 'cm') };
}

/** Body weights that are calculated with, kg; beyond them a slip of unit is likelier. Common practice, no source. */
export const WEIGHT = { least: 0.3, most: 400 } as const;

/** Body weight in kg, or why it cannot be used. */
export function weightOf(record: CaseRecord): { kg: Decimal } | { why: Message } {
  const { weight } = record.patient;
  if (!weight) return { why: message('why.no-weight') };
  const kg = amount(weight, 'kg');
  if (!kg || kg.lt(WEIGHT.least) || kg.gt(WEIGHT.most))
    return {
      why: message('why.weight', {
        weight: { quantity: weight },
        least: { number: String(WEIGHT.least) },
        most: { number: String(WEIGHT.most) },
      }),
    };
  // A weight that no patient of this age has is most likely a slip: nothing is worked out from it.
  if (within(weight, [rangesOf(record).weight]) === false)
    return { why: message('why.implausible', { value: { quantity: weight } }) };
  return { kg };
}

/** Height in cm, or why it cannot be used. */
export function heightOf(record: CaseRecord): { cm: Decimal } | { why: Message } {
  const { height } = record.patient;
  const cm = amount(height, 'cm');
  if (!height || !cm) return { why: message('why.no-height') };
  if (within(height, [rangesOf(record).height]) === false)
    return { why: message('why.implausible', { value: { quantity: height } }) };
  return { cm };
}

/** Weight and height that cannot be right at this age, or not together. */
export function bodyFindings(record: CaseRecord): Finding[] {
  const { weight, height } = record.patient;
  const ranges = rangesOf(record);
  const wrong = (
    [
      ['weight', weight, ranges.weight],
      ['height', height, ranges.height],
    ] as const
  ).flatMap(([name, value, range]) =>
    value && within(value, [range]) === false
      ? [refused({ sentence: message(`input.${name}`) }, value, [range], `patient.${name}`)]
      : [],
  );
  return wrong.length > 0 ? wrong : indexFinding(record);
}

function indexFinding(record: CaseRecord): Finding[] {
  const { weight, height, birthDate } = record.patient;
  const [kg, cm] = [amount(weight, 'kg'), amount(height, 'cm')];
  const ages = agesOn(birthDate, record.case.date);
  if (!weight || !height || !kg || !cm?.gt(0) || !ages || ages.most < 2) return [];
  const index = kg.div(cm.div(100).pow(2));
  const [least, most] = INDEX[ages.least >= 18 ? 'adult' : ages.most > CHILD ? 'youth' : 'child'];
  if (index.gte(least) && index.lte(most)) return [];
  const params = {
    weight: { quantity: weight },
    height: { quantity: height },
    index: { number: index.toFixed(1) },
    least: { number: least },
    most: { number: most },
  };
  return [
    finding('clinical.value-unlikely', 'patient.weight', {
      what: message('unlikely.index', params),
    }),
  ];
}
