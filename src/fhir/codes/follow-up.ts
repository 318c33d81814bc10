import type { DeviceFamily } from '../../devices/types.js';
import { followUpCodes } from './procedures.js';
import type { KnownCode } from './types.js';

/** A published code for an item of aftercare, and what the item must say to bear it. */
interface FollowUpRow {
  readonly code: KnownCode;
  /** The item's whole words, compared without case: never a word inside others. */
  readonly words: readonly string[];
  /** Family of the device that the item must name. */
  readonly family?: DeviceFamily;
}

/** The codes of the R4 value set that Procedure.followUp is bound to (as an example) and that aftercare may mean. */
export const followUpRows: readonly FollowUpRow[] = [
  {
    code: followUpCodes['removal of drain'],
    words: ['removal of drain', 'removal of the drain', 'remove drain', 'remove the drain'],
    family: 'drain',
  },
  {
    code: followUpCodes['removal of suture'],
    words: ['removal of suture', 'removal of the suture', 'remove suture', 'remove the suture'],
  },
  {
    code: followUpCodes['removal of staples'],
    words: ['removal of staples', 'removal of the staples', 'remove staples', 'remove the staples'],
  },
  {
    code: followUpCodes['change of dressing'],
    words: ['change of dressing', 'change of the dressing', 'change dressing', 'change the dressing'],
  },
];

/**
 * The code of an item; nothing unless its whole words, and the family of its device where one is asked for, say
 * exactly that.
 */
export function followUpCode(what: string, family: DeviceFamily | undefined): KnownCode | undefined {
  const words = what.trim().toLowerCase();
  return followUpRows.find(
    row => row.words.includes(words) && (row.family === undefined || row.family === family),
  )?.code;
}
