import { CasetallyError } from '../../findings/errors.js';
import type { Finding } from '../../findings/finding.js';
import { readContribution } from '../../intake/read-contribution.js';
import { bringIn } from '../../pipeline/intake/bring-in.js';
import { decodeUtf8 } from '../../record/read.js';
import { type Reply, refusal } from '../api/reply.js';
import { broughtReply, kitsWanted } from './brought.js';
import type { CasePorts } from './case-handlers.js';
import type { SentCase } from './sent-case.js';

/** POST /intake/merge: the record with what kits and sources give, and what a person has to look at. Nothing is kept. */
export async function mergeHandler(
  { record, sources, previous, pictures }: SentCase,
  names: readonly string[],
  ports: CasePorts,
): Promise<Reply> {
  const { site, language } = ports;
  const no = (text: string, findings: readonly Finding[] = []) =>
    refusal(400, 'invalid', text, findings, {}, language);
  if (previous.length > 0 || pictures.size > 0)
    return no('Sources are brought into one record: leave out earlier versions and pictures.');
  const decoded = decodeUtf8(record);
  if ('finding' in decoded) return no('This is not a case record that can be read.', [decoded.finding]);
  const read = sources.map(source => readContribution(source));
  const faults = read.flatMap(one => (one.contribution ? [] : one.findings));
  if (faults.length > 0) return no('A source cannot be read.', faults);
  try {
    const kits = await kitsWanted(names, ports);
    if ('status' in kits) return kits;
    const contributions = read.flatMap(({ contribution }) => contribution ?? []);
    const brought = bringIn(decoded.text, { contributions, kits }, site.site, new Date().toISOString());
    return broughtReply(brought, ports);
  } catch (error) {
    if (error instanceof CasetallyError && error.code === 'usage') return no(error.message);
    throw error;
  }
}
