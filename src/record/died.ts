import type { CaseRecord } from './schema/record.js';

/** True where the record says that the patient died: in the outcome, or as the harm of a complication. */
export function died({ outcome, complications }: CaseRecord): boolean {
  if (outcome?.died !== undefined) return true;
  return Array.isArray(complications) && complications.some(complication => complication.harm === 'death');
}
