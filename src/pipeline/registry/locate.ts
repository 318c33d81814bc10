import type { Finding } from '../../findings/finding.js';
import type { Register } from '../../register/store/register.js';
import type { Site } from '../../site/site.js';
import { checkCase } from '../check.js';
import type { BatchFate } from './settle.js';

/** Findings with the lines of a record that they are about. */
export function locatedIn(record: Uint8Array | string, findings: readonly Finding[], site: Site): Finding[] {
  const { parsed } = checkCase(record, site);
  return findings.map(one => ({ ...one, ...parsed.locate(one.path) }));
}

/** What a registry said of cases, with the lines of the records that the register keeps. */
export async function locatedFates(
  fates: readonly BatchFate[],
  site: Site,
  register: Pick<Register, 'record'>,
): Promise<readonly BatchFate[]> {
  const records = new Map<string, string | undefined>();
  for (const { cases } of fates)
    for (const { case: name } of cases)
      if (!records.has(name)) records.set(name, await register.record(name));
  return fates.map(fate => ({
    ...fate,
    cases: fate.cases.map(one => {
      const record = records.get(one.case);
      const [located = one.finding] = record === undefined ? [] : locatedIn(record, [one.finding], site);
      return { ...one, finding: located };
    }),
  }));
}
