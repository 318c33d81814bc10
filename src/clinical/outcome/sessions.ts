import { type Finding, finding } from '../../findings/finding.js';
import { message } from '../../findings/message.js';
import type { CaseRecord } from '../../record/schema/record.js';
import { assessed, type Calculation, type Input, inputOf, notAssessed } from '../calculation.js';
import { caseNamed, deviceNamed } from '../named.js';

/** Sessions so far: a later one refers to the earlier ones, and carries what stayed in between. */
export function sessions(record: CaseRecord): { calculations: Calculation[]; findings: Finding[] } {
  const { session } = record.case;
  if (session === undefined || session < 2) return { calculations: [], findings: [] };
  const attempts = record.before?.earlierAttempts ?? [];
  const carried = Object.entries(record.devices ?? {}).filter(([, device]) => device.carried);
  const inputs: Input[] = [
    ...attempts.map(({ what, result, date, case: earlier }, index) => {
      const named = [...(date ? [{ when: date }] : []), ...(earlier ? [earlier.value] : [])];
      return inputOf(
        named.length > 0 ? { list: named } : message('input.attempt', { n: { number: String(index + 1) } }),
        result === undefined ? caseNamed(what) : message('value.attempt', { what: caseNamed(what), result }),
        `before.earlierAttempts[${index}]`,
      );
    }),
    ...carried.map(([key, { kind }]) =>
      inputOf(message('input.in-place'), deviceNamed(kind), `devices.${key}.carried`),
    ),
  ];
  const base = {
    key: 'sessions',
    group: 'outcome',
    what: message('calculation.sessions'),
    rule: message('rule.sessions'),
    basis: message('basis.record'),
  } as const;
  const referred = attempts.length > 0 || carried.some(([, { carried: from }]) => from?.case !== undefined);
  if (!referred)
    return {
      calculations: [notAssessed(base, message('why.no-earlier'), inputs)],
      findings: [finding('clinical.session-without-earlier', 'case.session', { session: String(session) })],
    };
  const quantity = { value: String(session), unit: '', code: '1' };
  return { calculations: [assessed(base, quantity, inputs)], findings: [] };
}
