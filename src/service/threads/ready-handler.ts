import { type Signing, signedText } from '../../drafts/sign.js';
import { type Finding, stops } from '../../findings/finding.js';
import { openBytes } from '../../pipeline/open-case.js';
import { signingSummary } from '../../pipeline/signing-summary.js';
import { decodeUtf8 } from '../../record/read.js';
import { type Reply, refusal, reply } from '../api/reply.js';
import type { CasePorts } from './case-handlers.js';
import type { SentCase } from './sent-case.js';
import { unreadable } from './unreadable.js';

/**
 * What a draft lacks that is to be closed or signed, and what is said before that. Where it is to be signed, the text with
 * the signature is in the answer, and it is that text which was checked.
 */
export async function readyHandler(
  { record: bytes }: SentCase,
  sign: Signing | undefined,
  { site, language }: CasePorts,
): Promise<Reply> {
  const read = decodeUtf8(bytes);
  if ('finding' in read) return unreadable([read.finding], language);
  const made = sign ? signedText(read.text, sign) : { text: read.text };
  if ('findings' in made) return unreadable(made.findings, language);
  const opened = await openBytes(new TextEncoder().encode(made.text), site, Date.now());
  const summary = signingSummary(opened, site.site, language);
  const errors: readonly Finding[] = opened.findings.filter(stops);
  if (!summary)
    return refusal(422, 'invalid', 'The record must be readable as a whole first.', errors, {}, language);
  return reply(
    200,
    { ready: errors.length === 0, ...summary, ...(sign && { text: made.text }) },
    { language },
  );
}
