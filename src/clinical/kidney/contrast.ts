import { type Finding, finding } from '../../findings/finding.js';
import { message } from '../../findings/message.js';
import { Decimal } from '../../record/decimal.js';
import { entriesOf } from '../../record/entries.js';
import type { CaseRecord, ContrastGiven } from '../../record/schema/record.js';
import { elementOf } from '../../trade/drugs/table.js';
import { isChild } from '../age.js';
import { weightOf } from '../body.js';
import {
  assessed,
  type Calculation,
  type CalculationBase,
  type Input,
  inputOf,
  notAssessed,
} from '../calculation.js';
import { conditionNamed } from '../conditions.js';
import { lastBefore } from '../labs/labs.js';
import { amount } from '../labs/measure.js';
import type { ClinicalLimits } from '../limits.js';
import { drugNamed } from '../named.js';
import { isPossible } from '../plausible.js';
import { creatinineMgDl } from './equations.js';

const intoVessel = (given: ContrastGiven): boolean =>
  given.route === 'intra-arterial' || given.route === 'intravenous';

/** True for contrast that counts for the kidneys: into a vessel, and neither gas nor anything else without iodine or gadolinium. */
export const intravascular = (given: ContrastGiven): boolean =>
  intoVessel(given) && elementOf(given.agent.text) !== 'none';

interface Entry {
  readonly given: ContrastGiven;
  readonly path: string;
}

/** Contrast of a record with its places. */
export function contrastOf(record: CaseRecord): Entry[] {
  const list = entriesOf(record.contrast);
  return list.map((given, index) => ({ given, path: `contrast[${index}]` }));
}

/** Volume, and iodine and gadolinium mass, split by route: only what went into vessels counts for the kidneys. */
export function assessContrast(
  record: CaseRecord,
  limits: ClinicalLimits['kidney'],
): { calculations: Calculation[]; findings: Finding[] } {
  const all = contrastOf(record);
  const groups: Group[] = [
    {
      key: 'intravascular',
      entries: all.filter(e => intravascular(e.given)),
    },
    {
      key: 'elsewhere',
      entries: all.filter(e => !intoVessel(e.given)),
    },
  ];
  const calculations = groups.flatMap(group =>
    group.entries.length === 0 ? [] : [volume(group), ...masses(group)],
  );
  const total = sum((groups[0]?.entries ?? []).map(e => amount(e.given.volume, 'mL')));
  return { calculations, findings: total ? volumeFindings(record, total, limits) : [] };
}

/** The volume into vessels against the lowest of the limits that apply to this patient. */
function volumeFindings(record: CaseRecord, total: Decimal, limits: ClinicalLimits['kidney']): Finding[] {
  const child = isChild(record);
  const weight = weightOf(record);
  const kg = 'kg' in weight ? weight.kg : undefined;
  const lab = lastBefore(record, 'creatinine');
  const creatinine = lab && isPossible('creatinine', lab.quantity) ? creatinineMgDl(lab.quantity) : undefined;
  const { volume: most, volumeByCreatinine: byKidney, volumeChild } = limits;
  const dialysis = conditionNamed(record, 'dialysis') !== undefined;
  const candidates = [
    ...(most ? [{ limit: most, value: new Decimal(most.value), rule: message('contrast.most') }] : []),
    ...(byKidney && !child && !dialysis && kg && creatinine?.gt(0)
      ? [
          {
            limit: byKidney,
            value: kg.times(byKidney.value).div(creatinine),
            rule: message('contrast.creatinine', { factor: { number: byKidney.value } }),
          },
        ]
      : []),
    ...(volumeChild && child && kg
      ? [
          {
            limit: volumeChild,
            value: kg.times(volumeChild.value),
            rule: message('contrast.child', { factor: { number: volumeChild.value } }),
          },
        ]
      : []),
  ];
  const lowest = candidates.sort((a, b) => a.value.comparedTo(b.value))[0];
  if (!lowest || total.lte(lowest.value)) return [];
  const params = {
    volume: { number: total.toString() },
    limit: { number: lowest.value.toFixed(0) },
    rule: lowest.rule,
  };
  return [finding('clinical.contrast-volume', 'contrast', params, { basis: lowest.limit.source })];
}

interface Group {
  readonly key: 'intravascular' | 'elsewhere';
  readonly entries: readonly Entry[];
}

function sum(values: readonly (Decimal | undefined)[]): Decimal | undefined {
  return values.reduce((a: Decimal | undefined, b) => a && b && a.plus(b), new Decimal(0));
}

function volume({ key, entries }: Group): Calculation {
  const base: CalculationBase = {
    key: `contrast-volume/${key}`,
    group: 'contrast',
    what: message('calculation.contrast-volume', { where: message(`where.${key}`) }),
    rule: message('rule.sum'),
    basis: message('basis.arithmetic'),
  };
  const inputs = entries.map(
    ({ given, path }): Input =>
      inputOf(
        message('input.contrast', {
          agent: drugNamed(given.agent.text),
          route: { term: 'route', value: given.route },
        }),
        { quantity: given.volume },
        `${path}.volume`,
      ),
  );
  const total = sum(entries.map(e => amount(e.given.volume, 'mL')));
  if (!total) return notAssessed(base, message('why.volume-not-counted'), inputs);
  return assessed(base, { value: total.toString(), unit: 'mL', code: 'mL' }, inputs);
}

/** One mass for each element given: g = mL × mg/mL ÷ 1000. An agent whose element is not known spoils iodine's. */
function masses({ key, entries }: Group): Calculation[] {
  const elements = ['iodine', 'gadolinium'] as const;
  return elements.flatMap((element): Calculation[] => {
    const of = entries.filter(({ given }) => (elementOf(given.agent.text) ?? 'iodine') === element);
    if (of.length === 0) return [];
    const base: CalculationBase = {
      key: `${element}-mass/${key}`,
      group: 'contrast',
      what: message(`calculation.${element}-mass`, { where: message(`where.${key}`) }),
      rule: message('rule.contrast-mass'),
      basis: message('basis.arithmetic'),
    };
    const inputs = of.map(
      ({ given, path }): Input =>
        inputOf(
          drugNamed(given.agent.text),
          message('value.solution', {
            amount: { quantity: given.volume },
            strength: given.concentration
              ? { quantity: given.concentration }
              : message('value.no-concentration'),
          }),
          path,
        ),
    );
    const unknown = of.find(({ given }) => elementOf(given.agent.text) === undefined);
    if (unknown) {
      const why = message('why.element-unknown', { agent: drugNamed(unknown.given.agent.text) });
      return [notAssessed(base, why, inputs)];
    }
    const missing = of.find(({ given }) => !given.concentration);
    if (missing)
      return [
        notAssessed(
          base,
          message('why.no-concentration', { agent: drugNamed(missing.given.agent.text) }),
          inputs,
        ),
      ];
    const total = sum(
      of.map(({ given }) => {
        const ml = amount(given.volume, 'mL');
        const strength = amount(given.concentration, 'mg/mL');
        return ml && strength ? ml.times(strength).div(1000) : undefined;
      }),
    );
    if (!total) return [notAssessed(base, message('why.concentration-not-counted'), inputs)];
    return [assessed(base, { value: total.toString(), unit: 'g', code: 'g' }, inputs)];
  });
}
