import { type Finding, sortFindings } from '../../findings/finding.js';
import { type Beginning, beginRecord, openRemarks } from '../../intake/begin.js';
import type { Contribution } from '../../intake/contribution.js';
import { otherKind } from '../../intake/kits/agree.js';
import { type Kit, kitContribution } from '../../intake/kits/read.js';
import { type Merged, mergeSources } from '../../intake/merge.js';
import { writeRecord, writeRemarks } from '../../intake/write/write.js';
import { pathText } from '../../record/path.js';
import { treeIn, valueAt } from '../../record/tree.js';
import type { Site } from '../../site/site.js';
import { caseSystemOf } from '../settings.js';

/** What is brought into a record. */
export interface Sources {
  readonly contributions: readonly Contribution[];
  readonly kits: readonly Kit[];
  /** What there is to say of sources that were asked for and gave nothing. */
  readonly findings?: readonly Finding[];
}

/** What came of it. */
export interface BroughtIn {
  /** The record as it is to be now; absent where nothing may be written. */
  readonly text?: string;
  readonly merged: Merged;
  readonly findings: readonly Finding[];
}

/**
 * Brings sources into the text of a record. Pure: the same text, sources and time give the same text.
 * @param now ISO 8601 with offset: when kits are put on the table
 */
export function bringIn(
  text: string,
  { contributions, kits, findings = [] }: Sources,
  site: Site,
  now: string,
): BroughtIn {
  const { timeZone, intake } = site;
  const zone = timeZone === undefined ? {} : { timeZone };
  const all = [...contributions, ...kits.map(kit => kitContribution(kit, now))];
  const merged = mergeSources(text, all, {
    ...{ olderThan: intake.olderThan, caseSystem: caseSystemOf(site), today: now.slice(0, 10) },
    ...zone,
  });
  if (merged.unreadable) return { merged, findings: [...merged.findings, ...findings] };
  const written = writeRecord(text, merged);
  const kind = valueAt(treeIn(written.text ?? text), ['case', 'kind']);
  const others = kits.flatMap(kit => otherKind(kit, typeof kind === 'string' ? kind : undefined, now));
  return {
    ...(written.text !== undefined && { text: written.text }),
    merged,
    findings: sortFindings([...findings, ...merged.findings, ...written.findings, ...others]),
  };
}

/** A merge as programs are told of it: each value with its path and where it came from. */
export function mergedRows({ set, add, proposals, held }: Merged): object {
  const row = ({ path, value, source }: (typeof set)[number] | (typeof proposals)[number]) => ({
    path: pathText(path),
    value,
    source,
  });
  return { set: set.map(row), added: add.map(row), proposed: proposals.map(row), held };
}

/** Begins a record from sources; remarks say what is still open. */
export function beginFrom(beginning: Beginning, sources: Sources, site: Site, now: string): BroughtIn {
  const begun = bringIn(beginRecord(beginning), sources, site, now);
  if (begun.text === undefined) return begun;
  const { text } = writeRemarks(begun.text, openRemarks(begun.text, site.timeZone));
  return text === undefined ? begun : { ...begun, text };
}
