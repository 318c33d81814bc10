import { openUnfinishedBytes } from '../../pipeline/open-unfinished.js';
import { readCaseLines } from '../../pipeline/read-case-lines.js';
import { type Reply, refusal, reply } from '../api/reply.js';
import type { CasePorts } from './case-handlers.js';
import type { SentCase } from './sent-case.js';
import { unreadable } from './unreadable.js';

/** POST /cases/events: the events that lines propose for a case, and what they would give to it. Nothing is kept. */
export async function eventsHandler(
  { record: bytes, lines }: SentCase,
  { at, accept }: { readonly at: string | undefined; readonly accept: boolean },
  { site, language }: CasePorts,
): Promise<Reply> {
  if (lines === undefined)
    return refusal(400, 'structure', "One part, named 'lines', holds the lines, one a line.");
  const said = new Date().toISOString();
  const opened = openUnfinishedBytes(bytes, site.site, said);
  if (!('record' in opened)) return unreadable(opened.findings, language);
  const read = readCaseLines(lines.split(/\r?\n/), { opened, site: site.site, said, at, accept });
  return reply(200, { ...read, findings: [...opened.unread, ...read.findings] }, { language });
}
