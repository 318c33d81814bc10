import type { DeviceDetails, DeviceTally } from '../../devices/types.js';
import { type Finding, finding } from '../../findings/finding.js';
import { type Message, message } from '../../findings/message.js';
import { convert, type Quantity } from '../../record/quantity.js';
import type { CaseRecord, Target } from '../../record/schema/record.js';
import { assessed, type Calculation, type CalculationBase, notAssessed } from '../calculation.js';
import { amount, input } from '../labs/measure.js';
import type { ClinicalLimits } from '../limits.js';
import { placeNamed } from '../named.js';
import { sessions } from './sessions.js';
import { technicalSuccess } from './success.js';

/** Narrowing and technical success of each target, as recorded and as worked out; sessions. */
export function assessOutcome(
  record: CaseRecord,
  limits: ClinicalLimits['outcome'],
  devices: ReadonlyMap<string, DeviceDetails> = new Map(),
  tally?: DeviceTally,
): { calculations: Calculation[]; findings: Finding[] } {
  const session = sessions(record);
  const calculations: Calculation[] = [...session.calculations];
  const findings: Finding[] = [...session.findings];
  for (const [key, target] of Object.entries(record.targets ?? {})) {
    const before = narrowing(key, target, 'Before', limits);
    const after = narrowing(key, target, 'After', limits);
    const residual =
      amount(target.narrowingAfter, '%')?.toNumber() ??
      amount(after.calculations[0]?.result?.quantity, '%')?.toNumber();
    const success = technicalSuccess({ record, key, target, residual, limits, devices, tally });
    calculations.push(...before.calculations, ...after.calculations, ...success.calculations);
    findings.push(...before.findings, ...after.findings, ...success.findings);
  }
  return { calculations, findings };
}

/** (1 − lumen ÷ healthy diameter) × 100, and what was written against it. */
function narrowing(
  key: string,
  target: Target,
  when: 'Before' | 'After',
  limits: ClinicalLimits['outcome'],
): { calculations: Calculation[]; findings: Finding[] } {
  const path = `targets.${key}`;
  const findings: Finding[] = [];
  const written = target[`narrowing${when}`];
  const percent = written && convert(written, '%');
  if (written && percent && (percent.lt(0) || percent.gt(100)))
    findings.push(
      finding('clinical.narrowing', `${path}.narrowing${when}`, {
        value: { quantity: written },
        target: target.what.text,
      }),
    );
  const lumen = target[`lumen${when}`];
  if (!lumen) return { calculations: [], findings };
  const base: CalculationBase = {
    key: `narrowing-${when === 'Before' ? 'before' : 'after'}/${key}`,
    group: 'outcome',
    what: message(when === 'Before' ? 'calculation.narrowing-before' : 'calculation.narrowing-after', {
      target: placeNamed(target.what.text),
    }),
    rule: message('rule.narrowing'),
    basis: message('basis.narrowing'),
  };
  const { diameter } = target;
  const inputs = [
    input(message('input.lumen'), lumen, `${path}.lumen${when}`),
    ...(diameter ? [input(message('input.diameter'), diameter, `${path}.diameter`)] : []),
  ];
  const fail = (why: Message) => ({ calculations: [notAssessed(base, why, inputs)], findings });
  const open = amount(lumen, 'mm');
  const healthy = amount(diameter, 'mm');
  if (!diameter) return fail(message('why.no-diameter'));
  if (!healthy || healthy.isZero() || !open) return fail(message('why.diameter'));
  if (open.gt(healthy)) return fail(message('why.lumen-wide'));
  const value = open.div(healthy).neg().plus(1).times(100);
  const differs = limits.narrowingDiffers;
  const stated = amount(written, '%');
  if (differs && written && stated?.minus(value).abs().gt(differs.value))
    findings.push(
      finding(
        'clinical.narrowing-differs',
        `${path}.narrowing${when}`,
        {
          target: target.what.text,
          written: { quantity: written },
          computed: value.toFixed(0),
          limit: { number: differs.value },
        },
        { basis: differs.source },
      ),
    );
  const quantity: Quantity = { value: value.toFixed(0), unit: '%', code: '%' };
  return { calculations: [assessed(base, quantity, inputs)], findings };
}
