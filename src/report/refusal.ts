import { isReviewed, type Language, languageData } from '../findings/languages.js';
import { died } from '../record/died.js';
import type { CaseRecord } from '../record/schema/record.js';
import type { Audience } from './options.js';

const ENGLISH = { language: 'en-GB', unreviewed: false } as const;

/**
 * Why a report is not given to its reader, in a line of English; undefined when it may be.
 * @param errors how many findings of the case are errors
 * @param draft that a report marked as a draft was asked for; no patient is given one
 * @param letter its language, and whether the site lets patients have letters in one that nobody of the trade reviewed
 */
export function whyNoReport(
  record: CaseRecord,
  audience: Audience,
  errors: number,
  draft: boolean,
  letter: { readonly language: Language; readonly unreviewed: boolean } = ENGLISH,
): string | undefined {
  if (audience === 'patient' && died(record))
    return 'There is no letter to the patient: the record says that the patient died.';
  if (audience === 'patient' && !letter.unreviewed && !isReviewed(letter.language))
    return `There is no letter to the patient in ${languageData(letter.language).name} (${letter.language}): no clinician has reviewed that language. To print it all the same, set report.unreviewedLetters to true in the site configuration, or add --unreviewed.`;
  if (errors === 0) return undefined;
  const standing = errors === 1 ? '1 error stands' : `${errors} errors stand`;
  if (audience === 'patient') return `There is no letter to the patient while ${standing}.`;
  return draft ? undefined : `There is no report while ${standing}, except as a draft.`;
}
