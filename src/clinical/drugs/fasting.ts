import { type Finding, finding } from '../../findings/finding.js';
import { message } from '../../findings/message.js';
import type { CaseRecord } from '../../record/schema/record.js';
import { hoursText } from '../access.js';
import {
  assessed,
  type Calculation,
  type CalculationBase,
  inputOf,
  notAssessed,
  source,
} from '../calculation.js';
import type { ClinicalLimits } from '../limits.js';

/** Hours without food and clear fluids before sedation or anaesthesia, against the limits of the site. */
export function fasting(
  record: CaseRecord,
  limits: ClinicalLimits['drugs'],
): { calculations: Calculation[]; findings: Finding[] } {
  const { sedation } = record;
  const eaten = record.before?.fasting;
  const calculations: Calculation[] = [];
  const findings: Finding[] = [];
  if (!sedation || sedation === 'none' || sedation.kind === 'local anaesthesia only')
    return { calculations, findings };
  const start = sedation.start ?? record.case.started;
  const checks = [
    { field: 'food', limit: limits.fastingFood },
    { field: 'clearFluids', limit: limits.fastingFluids },
  ] as const;
  for (const { field, limit } of checks) {
    const name = message(`input.${field}`);
    const last = eaten?.[field];
    if (!last) {
      if (limit) findings.push(finding('clinical.fasting-not-recorded', 'before.fasting', { what: name }));
      continue;
    }
    const path = `before.fasting.${field}`;
    const base: CalculationBase = {
      key: `fasting/${field === 'food' ? 'food' : 'clear fluids'}`,
      group: 'drugs',
      what: message(`calculation.fasting.${field}`),
      rule: message('rule.fasting'),
      basis: limit
        ? message('basis.hours', { limit: { number: limit.value }, source: source(limit.source) })
        : message('basis.no-limit'),
    };
    const inputs = [
      inputOf(name, { when: last }, path),
      ...(start ? [inputOf(message('input.start'), { moment: start }, 'sedation.start')] : []),
    ];
    if (!last.moment || !start) {
      calculations.push(notAssessed(base, message('why.one-time'), inputs));
      continue;
    }
    const hours = (start.epoch - last.moment.epoch) / 3_600_000;
    if (hours < 0) {
      calculations.push(notAssessed(base, message('why.intake-after'), inputs));
      continue;
    }
    const text = hoursText(hours);
    calculations.push(assessed(base, { value: text, unit: 'h', code: 'h' }, inputs));
    if (limit && hours < Number(limit.value))
      findings.push(
        finding(
          'clinical.fasting',
          path,
          { what: name, hours: { number: text }, limit: { number: limit.value } },
          { basis: limit.source },
        ),
      );
  }
  return { calculations, findings };
}
