import { type Finding, finding } from '../findings/finding.js';
import type { CaseRecord } from '../record/schema/record.js';
import { hoursText } from './access.js';
import { assessed, type Calculation, type CalculationBase, notAssessed } from './calculation.js';
import type { ClinicalLimits } from './limits.js';

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
    { field: 'food', name: 'Food', limit: limits.fastingFood },
    { field: 'clearFluids', name: 'Clear fluids', limit: limits.fastingFluids },
  ] as const;
  for (const { field, name, limit } of checks) {
    const last = eaten?.[field];
    if (!last) {
      if (limit) findings.push(finding('clinical.fasting-not-recorded', 'before.fasting', { what: name }));
      continue;
    }
    const path = `before.fasting.${field}`;
    const base: CalculationBase = {
      key: `fasting/${field === 'food' ? 'food' : 'clear fluids'}`,
      group: 'drugs',
      what: `${name} to sedation`,
      rule: 'start of sedation less the last intake',
      basis: limit ? `limit ${limit.value} h: ${limit.source}` : 'arithmetic; no limit is set',
    };
    const inputs = [
      { name, value: last.text, path },
      ...(start ? [{ name: 'Start', value: `${start.date} ${start.clock}`, path: 'sedation.start' }] : []),
    ];
    if (!last.moment || !start) {
      calculations.push(notAssessed(base, 'one of the two times is not recorded', inputs));
      continue;
    }
    const hours = (start.epoch - last.moment.epoch) / 3_600_000;
    if (hours < 0) {
      calculations.push(notAssessed(base, 'the last intake is recorded after the start', inputs));
      continue;
    }
    const text = hoursText(hours);
    calculations.push(assessed(base, { value: text, unit: 'h', code: 'h' }, inputs));
    if (limit && hours < Number(limit.value))
      findings.push(
        finding(
          'clinical.fasting',
          path,
          { what: name, hours: text, limit: limit.value },
          { basis: limit.source },
        ),
      );
  }
  return { calculations, findings };
}
