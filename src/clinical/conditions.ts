import type { CaseRecord } from '../record/schema/record.js';

/** A recorded condition that a pattern meets; one that is denied (`no cirrhosis`) does not count. */
export function conditionLike(record: CaseRecord, pattern: RegExp): string | undefined {
  const all = [...(record.before?.conditions ?? []), ...(record.indication.conditions ?? [])];
  return all
    .map(({ text }) => text)
    .find(text => pattern.test(text) && !/\b(?:no|not|never|without)\b/i.test(text));
}
