import { stops } from '../../findings/finding.js';
import type { Kit } from '../../intake/kits/read.js';
import { type BroughtIn, mergedRows } from '../../pipeline/intake/bring-in.js';
import { kitsNamed } from '../../pipeline/intake/kits.js';
import { type Reply, refusal, reply } from '../api/reply.js';
import type { CasePorts } from './case-handlers.js';

/**
 * Kits of the site by their names; a refusal where one cannot be read.
 * @throws CasetallyError `usage` where there is none of a name
 */
export async function kitsWanted(
  names: readonly string[],
  { site, language }: CasePorts,
): Promise<readonly Kit[] | Reply> {
  const files = await kitsNamed(names, site);
  const broken = files.flatMap(({ kit, findings }) => (kit ? [] : findings));
  return broken.length > 0
    ? refusal(400, 'invalid', 'A kit of the site cannot be read.', broken, {}, language)
    : files.flatMap(({ kit }) => kit ?? []);
}

/** The record with what was brought into it, and what a person has to look at; a refusal where it cannot be read. */
export function broughtReply(
  { text, merged, findings }: BroughtIn,
  { language }: CasePorts,
  more: object = {},
): Reply {
  if (merged.unreadable) {
    const why = 'This is not a case record that can be read.';
    return refusal(400, 'invalid', why, findings.filter(stops), {}, language);
  }
  const record = text === undefined ? {} : { record: text };
  return reply(200, { ...record, ...mergedRows(merged), ...more, findings }, { language });
}
