import type { Outbox } from '../delivery/outbox/outbox.js';
import { type ReportVersion, reportVersion } from '../fhir/resources/version.js';
import type { CaseRecord } from '../record/schema/record.js';
import type { Site } from '../site/site.js';
import { type OpenedSite, openBytes } from './open-case.js';
import { caseKey, recordOf } from './outbox-item.js';
import type { EarlierVersion } from './versions.js';

/** A version of a case that went to a destination, as the outbox has it. */
export interface SentBefore {
  /** Of the item. */
  readonly id: string;
  /** Text of its record. */
  readonly record: string;
  readonly submission: string;
}

/** The versions of a case that were sent to a destination or wait for it, oldest first; none for a first report. */
export async function sentBefore(
  record: CaseRecord,
  site: Site,
  destination: string,
  outbox: Pick<Outbox, 'list'> | undefined,
): Promise<SentBefore[]> {
  if (!outbox || !followsAnother(record)) return [];
  const items = await outbox.list({ destination, caseKey: caseKey(record, site.namespace) });
  return items.flatMap(item => {
    const text = item.state === 'discarded' ? undefined : recordOf(item);
    return text === undefined ? [] : [{ id: item.id, record: text, submission: item.payload }];
  });
}

/** True for a report that replaces, appends or withdraws an earlier one. */
export function followsAnother(record: CaseRecord): boolean {
  return reportVersion(record).follows.length > 0;
}

/**
 * The earlier versions of a record: those given, and of those that were sent before the ones that were not given. Of
 * several sends of one version the last counts; what has the number of this version, or a later one, is not earlier.
 */
export async function withSentBefore(
  record: CaseRecord,
  given: readonly EarlierVersion[],
  before: readonly SentBefore[],
  site: OpenedSite,
): Promise<EarlierVersion[]> {
  const number = (of: CaseRecord): ReportVersion['number'] => reportVersion(of).number;
  const known = new Set(given.map(version => number(version.record)));
  const found = new Map<string, EarlierVersion>();
  for (const { record: text, submission } of before) {
    const opened = await openBytes(Buffer.from(text, 'utf8'), site);
    if (!opened.record || !opened.assessment) continue;
    const its = number(opened.record);
    if (known.has(its) || Number(its) >= Number(number(record))) continue;
    found.set(its, { record: opened.record, assessment: opened.assessment, sent: submission });
  }
  return [...given, ...found.values()];
}
