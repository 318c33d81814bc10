import type { DeviceTally } from '../../devices/types.js';
import { type Finding, finding } from '../../findings/finding.js';
import { died } from '../../record/died.js';
import { entriesOf } from '../../record/entries.js';
import type { CaseRecord } from '../../record/schema/record.js';

/**
 * Something that this case left inside against intention, where no complication is recorded: patient and referrer would read
 * that there was none. What is left for a coroner is none either.
 */
export function checkRetained(record: CaseRecord, { entries }: DeviceTally): Finding[] {
  const retained = entries.find(({ state, carried }) => state === 'retained unintended' && !carried);
  if (!retained || record.complications === undefined || died(record)) return [];
  if (entriesOf(record.complications).length > 0) return [];
  return [finding('clinical.retained-without-complication', 'complications', { what: retained.name })];
}
