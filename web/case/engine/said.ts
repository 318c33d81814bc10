import type { Language } from '../../../src/findings/languages.js';
import type { CheckedCase } from '../../../src/pipeline/check.js';
import { printer } from '../../../src/report/print/printer.js';
import { sentence } from '../../../src/report/view/sentence.js';

/** The events of a case as the report says them, in the order of the record. */
export function saidIn({ record, assessment }: CheckedCase, language: Language): readonly string[] {
  if (!record || !assessment) return [];
  const p = printer(record, assessment, { language });
  return (record.events ?? []).map(event => sentence(p, event));
}
