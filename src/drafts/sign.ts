import { treeIn, valueAt } from '../record/tree.js';
import { applyEdits, type Edited, type Refused } from './edit.js';
import type { Edit } from './edits.js';

/** Who signs, and when. */
export interface Signing {
  /** Team key. */
  readonly author: string;
  /** ISO 8601 with offset, to the second. */
  readonly at: string;
}

/** Statuses that say themselves that a person stands by the report; another becomes final with its signature. */
const SIGNED = ['final', 'amended', 'appended', 'withdrawn'];

/** The text of a record as its author signs it. What else is in it stays as it is. */
export function signedText(text: string, { author, at }: Signing): Edited | Refused {
  const status = valueAt(treeIn(text), ['report', 'status']);
  const edits: Edit[] = [
    { path: 'report.author', value: author },
    { path: 'report.signedAt', value: at },
    ...(typeof status === 'string' && SIGNED.includes(status)
      ? []
      : [{ path: 'report.status', value: 'final' }]),
  ];
  return applyEdits(text, edits);
}
