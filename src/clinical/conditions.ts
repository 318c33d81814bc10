import type { CaseRecord } from '../record/schema/record.js';
import { type Condition, conditionsIn } from '../trade/conditions.js';

/** Conditions that count even when they are over: the antibodies come back. */
const forLife: ReadonlySet<Condition['name']> = new Set(['heparin-induced thrombocytopenia']);

/** A recorded condition that names what a rule asks about, as it was written; what is over does not count. */
export function conditionNamed(record: CaseRecord, name: Condition['name']): string | undefined {
  const before = (record.before?.conditions ?? []).filter(
    ({ status }) => forLife.has(name) || (status !== 'resolved' && status !== 'history'),
  );
  return [...before, ...(record.indication.conditions ?? [])]
    .map(({ text }) => text)
    .find(text => conditionsIn(text).includes(name));
}
