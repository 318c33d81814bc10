import { Decimal } from 'decimal.js';
import { type Finding, finding } from '../findings/finding.js';
import { convert, printQuantity } from '../record/quantity.js';
import type { CaseRecord, ContrastGiven } from '../record/schema/record.js';
import { type Calculation, type Input, notAssessed } from './calculation.js';
import type { ClinicalLimits } from './limits.js';

const intravascular = (given: ContrastGiven) =>
  given.route === 'intra-arterial' || given.route === 'intravenous';

/** Volume and iodine (or gadolinium) mass, split by route: only what went into vessels counts for the kidneys. */
export function assessContrast(
  record: CaseRecord,
  limits: ClinicalLimits['kidney'],
): { calculations: Calculation[]; findings: Finding[] } {
  const all = (record.contrast === 'none' ? [] : (record.contrast ?? [])).map((given, index) => ({
    given,
    path: `contrast[${index}]`,
  }));
  const groups = [
    { key: 'intravascular', what: 'into vessels', entries: all.filter(e => intravascular(e.given)) },
    {
      key: 'elsewhere',
      what: 'into ducts, tracts, cavities or by mouth',
      entries: all.filter(e => !intravascular(e.given)),
    },
  ];
  const calculations = groups.flatMap(group =>
    group.entries.length === 0 ? [] : [volume(group), mass(group)],
  );
  const findings: Finding[] = [];
  const total = sum((groups[0]?.entries ?? []).map(e => convert(e.given.volume, 'mL')));
  if (limits.volume && total?.gt(limits.volume.value))
    findings.push(
      finding(
        'clinical.contrast-volume',
        'contrast',
        { volume: total.toString(), limit: limits.volume.value },
        { basis: limits.volume.source },
      ),
    );
  return { calculations, findings };
}

interface Group {
  readonly key: string;
  readonly what: string;
  readonly entries: readonly { readonly given: ContrastGiven; readonly path: string }[];
}

function sum(values: readonly (Decimal | undefined)[]): Decimal | undefined {
  return values.every(value => value !== undefined)
    ? values.reduce((a: Decimal, b) => a.plus(b ?? 0), new Decimal(0))
    : undefined;
}

function volume({ key, what, entries }: Group): Calculation {
  const base = {
    key: `contrast-volume-${key}`,
    group: 'contrast',
    what: `Contrast ${what}, volume`,
    rule: 'sum',
    basis: 'arithmetic',
  } as const;
  const inputs = entries.map(
    ({ given, path }): Input => ({
      name: `${given.agent.text}, ${given.route}`,
      value: printQuantity(given.volume),
      path: `${path}.volume`,
    }),
  );
  const total = sum(entries.map(e => convert(e.given.volume, 'mL')));
  if (!total) return notAssessed(base, 'a volume cannot be counted in mL', inputs);
  const value = total.toString();
  return { ...base, inputs, result: { text: `${value} mL`, quantity: { value, unit: 'mL', code: 'mL' } } };
}

/** g = mL × mg/mL ÷ 1000. */
function mass({ key, what, entries }: Group): Calculation {
  const base = {
    key: `contrast-mass-${key}`,
    group: 'contrast',
    what: `Iodine (or gadolinium) ${what}, mass`,
    rule: 'mL × mg/mL ÷ 1000',
    basis: 'arithmetic',
  } as const;
  const inputs = entries.map(
    ({ given, path }): Input => ({
      name: given.agent.text,
      value: `${printQuantity(given.volume)} of ${given.concentration ? printQuantity(given.concentration) : 'unrecorded concentration'}`,
      path,
    }),
  );
  const missing = entries.find(e => !e.given.concentration);
  if (missing)
    return notAssessed(base, `the concentration of '${missing.given.agent.text}' is not recorded`, inputs);
  const total = sum(
    entries.map(({ given }) => {
      const ml = convert(given.volume, 'mL');
      const strength = given.concentration && convert(given.concentration, 'mg/mL');
      return ml && strength ? ml.times(strength).div(1000) : undefined;
    }),
  );
  if (!total) return notAssessed(base, 'a volume or concentration cannot be counted', inputs);
  const value = total.toString();
  return { ...base, inputs, result: { text: `${value} g`, quantity: { value, unit: 'g', code: 'g' } } };
}
