import type { Finding } from '../../findings/finding.js';
import type { Contribution } from '../../intake/contribution.js';
import type { Site } from '../../site/site.js';
import { openUnfinished, whyUnread } from '../open-unfinished.js';
import { readCaseLines } from '../read-case-lines.js';

/**
 * Reads lines against a record that need not be whole yet.
 * @param accept true takes over as entries what was understood; else everything is proposed
 * @returns findings alone where devices or events of the record cannot be read
 */
export function linesFor(
  text: string,
  lines: readonly string[],
  site: Site,
  { now, by, accept }: { readonly now: string; readonly by: string; readonly accept: boolean },
): { readonly contribution?: Contribution; readonly findings: readonly Finding[] } {
  const opened = openUnfinished(text, site, now);
  if (!opened.record) return { findings: whyUnread(opened) };
  const { contribution } = readCaseLines(lines, { opened, site, said: now, accept });
  return { contribution: { ...contribution, by }, findings: [] };
}
