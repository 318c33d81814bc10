import { type Finding, finding } from '../findings/finding.js';
import { inBaseUnit, printQuantity, type Quantity } from '../record/quantity.js';
import type { CaseRecord, Target } from '../record/schema/record.js';
import { type Calculation, type Input, notAssessed } from './calculation.js';
import { firstAccess } from './drugs.js';

/** Residual narrowing above which a dilated vessel is not called a success. */
const RESIDUAL = 30;

/** Narrowing and technical success of each target, as recorded and as worked out. */
export function assessOutcome(record: CaseRecord): { calculations: Calculation[]; findings: Finding[] } {
  const calculations: Calculation[] = [];
  const findings: Finding[] = [];
  for (const [key, target] of Object.entries(record.targets ?? {})) {
    const path = `targets.${key}`;
    for (const when of ['Before', 'After'] as const) {
      const written = target[`narrowing${when}`];
      if (written && (Number(written.value) < 0 || Number(written.value) > 100))
        findings.push(
          finding('clinical.narrowing', `${path}.narrowing${when}`, {
            value: printQuantity(written),
            target: target.what.text,
          }),
        );
      calculations.push(...narrowing(key, target, when, path));
    }
    const contradiction = against(record, key, target, calculations);
    if (contradiction)
      findings.push(
        finding('clinical.success-differs', `${path}.success`, {
          target: target.what.text,
          written: target.success ?? '',
          why: contradiction,
        }),
      );
  }
  return { calculations, findings };
}

/** (1 − lumen ÷ healthy diameter) × 100. */
function narrowing(key: string, target: Target, when: 'Before' | 'After', path: string): Calculation[] {
  const lumen = target[`lumen${when}`];
  if (!lumen) return [];
  const base = {
    key: `narrowing-${when.toLowerCase()}/${key}`,
    group: 'outcome',
    what: `Narrowing of ${target.what.text} ${when.toLowerCase()}`,
    rule: '(1 − lumen ÷ healthy diameter) × 100',
    basis: 'definition of per cent diameter stenosis',
  } as const;
  const inputs: Input[] = [{ name: 'Lumen', value: printQuantity(lumen), path: `${path}.lumen${when}` }];
  const healthy = target.diameter && inBaseUnit(target.diameter);
  const open = inBaseUnit(lumen);
  if (!healthy || !target.diameter || healthy.lte(0))
    return [notAssessed(base, 'the diameter of the healthy part is not recorded', inputs)];
  inputs.push({ name: 'Healthy diameter', value: printQuantity(target.diameter), path: `${path}.diameter` });
  if (!open || open.gt(healthy))
    return [notAssessed(base, 'the lumen is wider than the healthy diameter', inputs)];
  const value = open.div(healthy).neg().plus(1).times(100).toFixed(0);
  const quantity: Quantity = { value, unit: '%', code: '%' };
  return [{ ...base, inputs, result: { text: `${value} %`, quantity } }];
}

/** Why a target called a success does not look like one; undefined when nothing speaks against it. */
function against(
  record: CaseRecord,
  key: string,
  target: Target,
  calculations: readonly Calculation[],
): string | undefined {
  if (target.success !== 'successful') return undefined;
  const crossings = (record.events ?? [])
    .filter(event => (event.target === key || event.across === key) && event.crossed !== undefined)
    .sort((a, b) => a.at.epoch - b.at.epoch);
  if (crossings.length > 0 && crossings.every(event => event.crossed === false)) return 'no event crossed it';
  if (target.flowAfter === 'none') return 'there is no flow after it';
  const written = target.narrowingAfter && Number(target.narrowingAfter.value);
  const computed = calculations.find(c => c.key === `narrowing-after/${key}`)?.result?.quantity?.value;
  const residual = written ?? (computed === undefined ? undefined : Number(computed));
  return residual !== undefined && residual > RESIDUAL
    ? `the narrowing left is ${residual} %, more than ${RESIDUAL} %`
    : undefined;
}

/** Minutes between the marks of the case, from times that stand in the record anyway. */
export function intervals(record: CaseRecord): Calculation[] {
  const checklist = record.before?.checklist;
  const access = firstAccess(record);
  const last = [...(record.events ?? [])].sort((a, b) => a.at.epoch - b.at.epoch).at(-1)?.at;
  const marks = [
    {
      key: 'door-to-access',
      what: 'Sign-in to access',
      from: checklist?.signIn,
      to: access,
      names: ['Sign-in', 'First access'],
    },
    {
      key: 'access-to-end',
      what: 'Access to the last event',
      from: access,
      to: last,
      names: ['First access', 'Last event'],
    },
    {
      key: 'case-length',
      what: 'Length of the case',
      from: record.case.started,
      to: record.case.ended,
      names: ['Start', 'End'],
    },
    {
      key: 'end-to-sign-out',
      what: 'Last event to sign-out',
      from: last,
      to: checklist?.signOut,
      names: ['Last event', 'Sign-out'],
    },
  ];
  return marks.flatMap(({ key, what, from, to, names }): Calculation[] => {
    if (!from || !to || to.epoch < from.epoch) return [];
    const value = String(Math.round((to.epoch - from.epoch) / 60_000));
    return [
      {
        key,
        group: 'times',
        what,
        result: { text: `${value} min`, quantity: { value, unit: 'min', code: 'min' } },
        inputs: [
          { name: names[0] ?? '', value: from.clock },
          { name: names[1] ?? '', value: to.clock },
        ],
        rule: 'difference of the two times',
        basis: 'arithmetic',
      },
    ];
  });
}
