import { died } from '../record/died.js';
import type { CaseRecord } from '../record/schema/record.js';
import type { Audience } from './options.js';

/**
 * Why a report is not given to its reader, in a line of English; undefined when it may be.
 * @param errors how many findings of the case are errors
 * @param draft that a report marked as a draft was asked for; no patient is given one
 */
export function whyNoReport(
  record: CaseRecord,
  audience: Audience,
  errors: number,
  draft: boolean,
): string | undefined {
  if (audience === 'patient' && died(record))
    return 'There is no letter to the patient: the record says that the patient died.';
  if (errors === 0) return undefined;
  const standing = errors === 1 ? '1 error stands' : `${errors} errors stand`;
  if (audience === 'patient') return `There is no letter to the patient while ${standing}.`;
  return draft ? undefined : `There is no report while ${standing}, except as a draft.`;
}
