import { Temporal } from 'temporal-polyfill';
import { type Finding, finding } from '../../findings/finding.js';
import { type Message, message } from '../../findings/message.js';
import type { CaseRecord } from '../../record/schema/record.js';
import type { Moment, When } from '../../record/time.js';
import { drugsIn } from '../../trade/drugs/table.js';
import { firstAccess, hoursText } from '../access.js';
import {
  assessed,
  type Calculation,
  type CalculationBase,
  type Input,
  inputOf,
  notAssessed,
  source,
} from '../calculation.js';
import { lastBefore } from '../labs/labs.js';
import type { ClinicalLimits } from '../limits.js';
import { byDrugName } from '../look-up.js';
import { drugNamed } from '../named.js';
import type { BleedingRisk } from './table.js';

/** Last doses of drugs that affect bleeding, to access, against the holds of the bleeding risk. A day without a time counts from its end. */
export function lastDoses(
  record: CaseRecord,
  limits: ClinicalLimits['drugs'],
  risk?: BleedingRisk,
): { calculations: Calculation[]; findings: Finding[] } {
  const list = record.before?.anticoagulants;
  if (!list || list === 'none') return { calculations: [], findings: [] };
  const access = firstAccess(record) ?? record.case.started;
  const calculations: Calculation[] = [];
  const findings: Finding[] = [];
  for (const [index, { drug, lastDose, plan }] of list.entries()) {
    const path = `before.anticoagulants[${index}]`;
    const hold =
      byDrugName(limits.hold, drug.text) ??
      byDrugName(risk === 'high' ? limits.holdHigh : limits.holdLow, drug.text);
    const base: CalculationBase = {
      key: `last-dose/${index + 1}`,
      group: 'bleeding',
      what: message('calculation.last-dose', { drug: drugNamed(drug.text) }),
      rule: message('rule.last-dose'),
      basis: hold
        ? message('basis.hold', {
            drug: drugNamed(hold.name),
            limit: { number: hold.entry.value },
            source: source(hold.entry.source),
          })
        : message('basis.no-hold'),
    };
    const inputs: Input[] = [
      ...(lastDose ? [inputOf(message('input.last-dose'), { when: lastDose }, `${path}.lastDose`)] : []),
      ...(access ? [inputOf(message('input.access'), { moment: access }, 'events')] : []),
    ];
    const fail = (why: Message) => calculations.push(notAssessed(base, why, inputs));
    if (!lastDose) {
      findings.push(finding('clinical.hold-unknown', path, { drug: drugNamed(drug.text) }));
      fail(message('why.no-last-dose'));
      continue;
    }
    if (!access) {
      fail(message('why.no-access-time'));
      continue;
    }
    const end = endOf(lastDose, access, record.case.timeZone);
    if (end === undefined) {
      fail(message('why.last-dose-day'));
      continue;
    }
    const hours = (access.epoch - end) / 3_600_000;
    if (hours < 0) {
      fail(lastDose.moment ? message('why.last-dose-after') : message('why.last-dose-same-day'));
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
            message('result.at-least', { amount: { quantity } }),
          ),
    );
    if (hold && hours < Number(hold.entry.value) && !isMeant(record, drug.text, plan, end))
      findings.push(
        finding(
          'clinical.hold-short',
          `${path}.lastDose`,
          { drug: drugNamed(drug.text), hours: { number: text }, limit: { number: hold.entry.value } },
          { basis: hold.entry.source },
        ),
      );
  }
  return { calculations, findings };
}

/** Plans by which a drug is not held for the case: `go on`, `continue for 3 months`, `75 mg a day for 3 months`. */
const GOES_ON =
  /^\s*(?:go(?:es)? on|continue[sd]?|to be continued|keep on|not (?:to be )?(?:stopped|held|withheld|paused)|\d+ ?mg (?:by mouth )?(?:once |twice )?(?:a day|per day|each day|every day|daily))\b/i;

const vitaminK = new Set(['warfarin', 'acenocoumarol', 'phenprocoumon']);

/**
 * No hold was meant: aspirin, a platelet inhibitor or a heparin infusion goes on by the plan of the record. Vitamin K
 * antagonists are judged by the INR where one was measured after the last dose.
 */
function isMeant(record: CaseRecord, text: string, plan: string | undefined, end: number): boolean {
  const drugs = drugsIn(text);
  if (drugs.some(({ name }) => vitaminK.has(name))) {
    const inr = lastBefore(record, 'INR');
    // A normal INR from before the last dose tells nothing of that dose.
    const stale =
      inr?.at.moment !== undefined && inr.at.moment.epoch < end && Number(inr.quantity.value) < 1.5;
    return inr !== undefined && (!stale || GOES_ON.test(plan ?? ''));
  }
  const mayGoOn = drugs.some(
    ({ name, families }) =>
      name === 'heparin' || families.includes('antiplatelet') || families.includes('salicylate'),
  );
  return mayGoOn && GOES_ON.test(plan ?? '');
}

/** Milliseconds of the dose, or of the end of its day in the zone of the case (else at the offset of access). */
function endOf(dose: When, access: Moment, timeZone: string | undefined): number | undefined {
  if (dose.moment) return dose.moment.epoch;
  if (dose.precision !== 'day') return undefined;
  const next = Temporal.PlainDate.from(dose.iso).add({ days: 1 });
  const zone = timeZone ?? (/(?:Z|[+-]\d{2}:\d{2})$/.exec(access.iso)?.[0] ?? 'UTC').replace(/^Z$/, 'UTC');
  return next.toZonedDateTime(zone).epochMilliseconds;
}
