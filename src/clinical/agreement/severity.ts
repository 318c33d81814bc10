import { type Finding, finding } from '../../findings/finding.js';
import { entriesOf } from '../../record/entries.js';
import type { CaseRecord, Complication } from '../../record/schema/record.js';

type Field = 'treatment' | 'stay' | 'harm';

/** Consequences that no mild complication has. Common practice, no source. */
const notMild: Readonly<Record<Field, readonly string[]>> = {
  harm: ['permanent severe', 'death'],
  treatment: ['intensive care', 'intervention under general anaesthesia'],
  stay: ['prolonged over 48 hours'],
};

/** How severe a complication is called, against what it led to. */
export function checkSeverity(record: CaseRecord): Finding[] {
  return entriesOf(record.complications).flatMap((complication, i) => {
    const led = complication.severity === 'mild' ? worst(complication) : undefined;
    return led
      ? [
          finding('clinical.severity-differs', `complications[${i}].severity`, {
            what: complication.what.text,
            consequence: led.value,
            place: `complications[${i}].${led.field}`,
          }),
        ]
      : [];
  });
}

function worst(complication: Complication): { readonly field: Field; readonly value: string } | undefined {
  for (const field of ['harm', 'treatment', 'stay'] as const) {
    const value = complication[field];
    if (value !== undefined && notMild[field].includes(value)) return { field, value };
  }
  return undefined;
}
