import { openUnfinished, whyUnread } from '../../pipeline/open-unfinished.js';
import { readCaseLines } from '../../pipeline/read-case-lines.js';
import { decodeUtf8 } from '../../record/read.js';
import { type Reply, refusal, reply } from '../api/reply.js';
import type { CasePorts } from './case-handlers.js';
import type { SentCase } from './sent-case.js';

/** POST /cases/events: the events that lines propose for a case, and what they would give to it. Nothing is kept. */
export async function eventsHandler(
  { record: bytes, lines }: SentCase,
  { at, accept }: { readonly at: string | undefined; readonly accept: boolean },
  { site, language }: CasePorts,
): Promise<Reply> {
  if (lines === undefined)
    return refusal(400, 'structure', "One part, named 'lines', holds the lines, one a line.");
  const said = new Date().toISOString();
  const decoded = decodeUtf8(bytes);
  const opened = 'finding' in decoded ? undefined : openUnfinished(decoded.text, site.site, said);
  if (!opened?.record) {
    const findings = 'finding' in decoded ? [decoded.finding] : opened ? whyUnread(opened) : [];
    return refusal(
      422,
      'invalid',
      'Devices and events of the record must be readable first.',
      findings,
      {},
      language,
    );
  }
  const read = readCaseLines(lines.split(/\r?\n/), { opened, site: site.site, said, at, accept });
  return reply(200, read, { language });
}
