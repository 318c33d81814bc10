import { Temporal } from 'temporal-polyfill';
import { type Finding, finding } from '../findings/finding.js';
import type { CaseRecord } from '../record/schema/record.js';
import type { Moment, When } from '../record/time.js';
import { firstAccess, hoursText } from './access.js';
import { assessed, type Calculation, type CalculationBase, type Input, notAssessed } from './calculation.js';
import type { ClinicalLimits } from './limits.js';
import { lookUpWithin } from './look-up.js';

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
    const hold = lookUpWithin(limits.hold, drug.text);
    const base: CalculationBase = {
      key: `last-dose/${index + 1}`,
      group: 'bleeding',
      what: `${drug.text}, last dose to access`,
      rule: 'access less last dose',
      basis: hold
        ? `hold table, ${hold.name} ${hold.entry.value} h: ${hold.entry.source}`
        : 'arithmetic; the hold table has no row for it',
    };
    const inputs: Input[] = [
      ...(lastDose ? [{ name: 'Last dose', value: lastDose.text, path: `${path}.lastDose` }] : []),
      ...(access ? [{ name: 'Access', value: `${access.date} ${access.clock}`, path: 'events' }] : []),
    ];
    const fail = (why: string) => calculations.push(notAssessed(base, why, inputs));
    if (!lastDose) {
      findings.push(finding('clinical.hold-unknown', path, { drug: drug.text }));
      fail('the last dose is not recorded');
      continue;
    }
    if (!access) {
      fail('neither access nor the start of the case has a time');
      continue;
    }
    const end = endOf(lastDose, access, record.case.timeZone);
    if (end === undefined) {
      fail('the last dose is not recorded to the day');
      continue;
    }
    const hours = (access.epoch - end) / 3_600_000;
    if (hours < 0) {
      fail(
        lastDose.moment
          ? 'the last dose is recorded after access'
          : 'the last dose is on the day of access, and its time is not recorded',
      );
      continue;
    }
    const whole = lastDose.moment !== undefined;
    const text = hoursText(hours);
    calculations.push(
      assessed(
        base,
        { value: text, ...(!whole && { comparator: '>=' as const }), unit: 'h', code: 'h' },
        inputs,
        `${whole ? '' : 'at least '}${text} h`,
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
