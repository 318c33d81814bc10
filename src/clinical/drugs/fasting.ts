import { type Finding, finding } from '../../findings/finding.js';
import type { CaseRecord } from '../../record/schema/record.js';
import { hoursText } from '../access.js';
import { assessed, type Calculation, type CalculationBase, inputOf, notAssessed } from '../calculation.js';
import type { ClinicalLimits } from '../limits.js';
import { english, say, source } from '../said.js';

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
    const name = say(`input.${field}`);
    const last = eaten?.[field];
    if (!last) {
      if (limit)
        findings.push(finding('clinical.fasting-not-recorded', 'before.fasting', { what: english(name) }));
      continue;
    }
    const path = `before.fasting.${field}`;
    const base: CalculationBase = {
      key: `fasting/${field === 'food' ? 'food' : 'clear fluids'}`,
      group: 'drugs',
      what: say(`name.fasting.${field}`),
      rule: say('rule.fasting'),
      basis: limit
        ? say('basis.hours', { limit: { number: limit.value }, source: source(limit.source) })
        : say('basis.no-limit'),
    };
    const inputs = [
      inputOf(name, { when: last }, path),
      ...(start ? [inputOf(say('input.start'), { moment: start }, 'sedation.start')] : []),
    ];
    if (!last.moment || !start) {
      calculations.push(notAssessed(base, say('why.one-time'), inputs));
      continue;
    }
    const hours = (start.epoch - last.moment.epoch) / 3_600_000;
    if (hours < 0) {
      calculations.push(notAssessed(base, say('why.intake-after'), inputs));
      continue;
    }
    const text = hoursText(hours);
    calculations.push(assessed(base, { value: text, unit: 'h', code: 'h' }, inputs));
    if (limit && hours < Number(limit.value))
      findings.push(
        finding(
          'clinical.fasting',
          path,
          { what: english(name), hours: text, limit: limit.value },
          { basis: limit.source },
        ),
      );
  }
  return { calculations, findings };
}
