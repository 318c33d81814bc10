import { Temporal } from 'temporal-polyfill';
import { type Finding, finding } from '../../findings/finding.js';
import type { CaseRecord } from '../../record/schema/record.js';
import type { Moment, When } from '../../record/time.js';
import { firstAccess, hoursText } from '../access.js';
import {
  assessed,
  type Calculation,
  type CalculationBase,
  type Input,
  inputOf,
  notAssessed,
} from '../calculation.js';
import type { ClinicalLimits } from '../limits.js';
import { byDrugName } from '../look-up.js';
import { type Said, say, source } from '../said.js';

/** Last doses of drugs that affect bleeding, to access, against the hold table. A day without a time counts from its end. */
export function lastDoses(
  record: CaseRecord,
  limits: ClinicalLimits['drugs'],
): { calculations: Calculation[]; findings: Finding[] } {
  const list = record.before?.anticoagulants;
  if (!list || list === 'none') return { calculations: [], findings: [] };
  const access = firstAccess(record) ?? record.case.started;
  const calculations: Calculation[] = [];
  const findings: Finding[] = [];
  for (const [index, { drug, lastDose }] of list.entries()) {
    const path = `before.anticoagulants[${index}]`;
    const hold = byDrugName(limits.hold, drug.text);
    const base: CalculationBase = {
      key: `last-dose/${index + 1}`,
      group: 'bleeding',
      what: say('name.last-dose', { drug: drug.text }),
      rule: say('rule.last-dose'),
      basis: hold
        ? say('basis.hold', {
            drug: hold.name,
            limit: { number: hold.entry.value },
            source: source(hold.entry.source),
          })
        : say('basis.no-hold'),
    };
    const inputs: Input[] = [
      ...(lastDose ? [inputOf(say('input.last-dose'), { when: lastDose }, `${path}.lastDose`)] : []),
      ...(access ? [inputOf(say('input.access'), { moment: access }, 'events')] : []),
    ];
    const fail = (why: Said) => calculations.push(notAssessed(base, why, inputs));
    if (!lastDose) {
      findings.push(finding('clinical.hold-unknown', path, { drug: drug.text }));
      fail(say('why.no-last-dose'));
      continue;
    }
    if (!access) {
      fail(say('why.no-access-time'));
      continue;
    }
    const end = endOf(lastDose, access, record.case.timeZone);
    if (end === undefined) {
      fail(say('why.last-dose-day'));
      continue;
    }
    const hours = (access.epoch - end) / 3_600_000;
    if (hours < 0) {
      fail(lastDose.moment ? say('why.last-dose-after') : say('why.last-dose-same-day'));
      continue;
    }
    const whole = lastDose.moment !== undefined;
    const text = hoursText(hours);
    const quantity = { value: text, unit: 'h', code: 'h' };
    calculations.push(
      whole
        ? assessed(base, quantity, inputs)
        : assessed(
            base,
            { ...quantity, comparator: '>=' },
            inputs,
            say('result.at-least', { amount: { quantity } }),
          ),
    );
    if (hold && hours < Number(hold.entry.value))
      findings.push(
        finding(
          'clinical.hold-short',
          `${path}.lastDose`,
          { drug: drug.text, hours: text, limit: hold.entry.value },
          { basis: hold.entry.source },
        ),
      );
  }
  return { calculations, findings };
}

/** Milliseconds of the dose, or of the end of its day in the zone of the case (else at the offset of access). */
function endOf(dose: When, access: Moment, timeZone: string | undefined): number | undefined {
  if (dose.moment) return dose.moment.epoch;
  if (dose.precision !== 'day') return undefined;
  const next = Temporal.PlainDate.from(dose.iso).add({ days: 1 });
  const zone = timeZone ?? (/(?:Z|[+-]\d{2}:\d{2})$/.exec(access.iso)?.[0] ?? 'UTC').replace(/^Z$/, 'UTC');
  return next.toZonedDateTime(zone).epochMilliseconds;
}
