import type { CaseRecord } from '../record/schema/record.js';
import { type Condition, conditionsIn } from '../trade/conditions.js';

/** A recorded condition that names what a rule asks about, as it was written. */
export function conditionNamed(record: CaseRecord, name: Condition['name']): string | undefined {
  const all = [...(record.before?.conditions ?? []), ...(record.indication.conditions ?? [])];
  return all.map(({ text }) => text).find(text => conditionsIn(text).includes(name));
}
