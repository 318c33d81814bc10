import { CasetallyError } from '../../findings/errors.js';
import { type Finding, stops } from '../../findings/finding.js';
import { readContribution } from '../../intake/read-contribution.js';
import { type BroughtIn, bringIn } from '../../pipeline/intake/bring-in.js';
import { kitsNamed } from '../../pipeline/intake/kits.js';
import { pathText } from '../../record/path.js';
import { decodeUtf8 } from '../../record/read.js';
import { type Reply, refusal, reply } from '../api/reply.js';
import type { CasePorts } from './case-handlers.js';
import type { SentCase } from './sent-case.js';

/** POST /intake/merge: the record with what kits and sources give, and what a person has to look at. Nothing is kept. */
export async function mergeHandler(
  { record, sources, previous, pictures }: SentCase,
  names: readonly string[],
  { site, language }: CasePorts,
): Promise<Reply> {
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
    const files = await kitsNamed(names, site);
    const broken = files.flatMap(({ kit, findings }) => (kit ? [] : findings));
    if (broken.length > 0) return no('A kit of the site cannot be read.', broken);
    const contributions = read.flatMap(({ contribution }) => contribution ?? []);
    const kits = files.flatMap(({ kit }) => kit ?? []);
    const brought = bringIn(decoded.text, { contributions, kits }, site.site, new Date().toISOString());
    if (brought.unreadable)
      return no('This is not a case record that can be read.', brought.findings.filter(stops));
    return reply(200, answerOf(brought), { language });
  } catch (error) {
    if (error instanceof CasetallyError && error.code === 'usage') return no(error.message);
    throw error;
  }
}

function answerOf({ text, merged, findings }: BroughtIn): object {
  const { set, add, proposals, held } = merged;
  const row = ({ path, value, source }: (typeof set)[number] | (typeof proposals)[number]) => ({
    path: pathText(path),
    value,
    source,
  });
  return {
    ...(text !== undefined && { record: text }),
    set: set.map(row),
    added: add.map(row),
    proposed: proposals.map(row),
    held,
    findings,
  };
}
