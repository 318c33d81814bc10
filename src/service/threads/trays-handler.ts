import { caseTrays } from '../../pipeline/case-trays.js';
import { type Reply, reply } from '../api/reply.js';
import type { CasePorts } from './case-handlers.js';
import type { SentCase } from './sent-case.js';
import { unreadable } from './unreadable.js';

/** POST /cases/trays: where each thing of a case is, and what can be done with it. The record need not be whole yet. */
export function traysHandler({ record }: SentCase, { site, language }: CasePorts): Reply {
  const trays = caseTrays(record, site.site, new Date().toISOString(), language);
  return 'placed' in trays ? reply(200, trays, { language }) : unreadable(trays.findings, language);
}
