import { type Finding, finding } from '../findings/finding.js';
import type { CaseRecord } from '../record/schema/record.js';
import { type Calculation, type Input, notAssessed } from './calculation.js';

/** Sessions so far: a later one refers to the earlier ones, and carries what stayed in between. */
export function sessions(record: CaseRecord): { calculations: Calculation[]; findings: Finding[] } {
  const { session } = record.case;
  if (session === undefined || session < 2) return { calculations: [], findings: [] };
  const attempts = record.before?.earlierAttempts ?? [];
  const carried = Object.entries(record.devices ?? {}).filter(([, device]) => device.carried);
  const inputs: Input[] = [
    ...attempts.map(({ what, result, date, case: earlier }, index) => ({
      name: [date?.text, earlier?.value].filter(Boolean).join(', ') || `Earlier attempt ${index + 1}`,
      value: result === undefined ? what : `${what}: ${result}`,
      path: `before.earlierAttempts[${index}]`,
    })),
    ...carried.map(([key, { kind }]) => ({
      name: 'Still in place',
      value: kind,
      path: `devices.${key}.carried`,
    })),
  ];
  const base = {
    key: 'sessions',
    group: 'outcome',
    what: 'Sessions so far, this one included',
    rule: 'as recorded; earlier attempts and what they left in place are its inputs',
    basis: 'the record',
  } as const;
  const referred = attempts.length > 0 || carried.some(([, { carried: from }]) => from?.case !== undefined);
  if (!referred)
    return {
      calculations: [notAssessed(base, 'the record refers to no earlier attempt', inputs)],
      findings: [finding('clinical.session-without-earlier', 'case.session', { session: String(session) })],
    };
  const quantity = { value: String(session), unit: '', code: '1' };
  return { calculations: [{ ...base, inputs, result: { text: String(session), quantity } }], findings: [] };
}
