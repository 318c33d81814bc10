import type { Draft, Drafts } from '../../../drafts/store/drafts.js';
import { CasetallyError } from '../../../findings/errors.js';
import type { ExitCode } from '../../exit.js';
import { openDrafts } from '../../process.js';

export interface DraftFlags {
  readonly data?: string;
  readonly json?: boolean;
}

/** Opens the drafts for a piece of work, and closes them whatever comes of that. */
export async function withDrafts(
  { data }: DraftFlags,
  work: (drafts: Drafts) => Promise<ExitCode>,
): Promise<ExitCode> {
  const drafts = await openDrafts(data);
  try {
    return await work(drafts);
  } finally {
    await drafts.close();
  }
}

/** @throws CasetallyError 'usage' where there is none. */
export async function draftOf(drafts: Drafts, id: string): Promise<Draft> {
  const draft = await drafts.get(id);
  if (draft) return draft;
  throw new CasetallyError('usage', 'there is no such draft; casetally drafts list names those of a day.');
}

/** @throws CasetallyError 'usage' for words that say nothing, or more than a line. */
export function lineIn(flag: string, text: string): string {
  const line = text.trim();
  if (line === '' || line.length > 1_000 || /\p{Cc}/u.test(line))
    throw new CasetallyError('usage', `${flag} takes one line of text.`);
  return line;
}
