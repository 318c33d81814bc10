import { type Finding, stops } from '../../findings/finding.js';
import type { CaseRecord } from '../../record/schema/record.js';
import type { Contribution } from '../contribution.js';
import { belongs } from './about.js';
import { combineDose, type DoseSummary } from './combine.js';
import { compareDose } from './compare.js';
import { doseContribution } from './contribute.js';
import { type ReadDose, readDoseReport } from './read.js';

/** What is read of dose reports that were given together. */
export interface DoseReading {
  readonly files: readonly (ReadDose & { readonly file: string })[];
  readonly summary: DoseSummary;
  /** What differs from the record, where one was given; an error means that nothing of the reports is for this record. */
  readonly compared: readonly Finding[];
  readonly contribution: Contribution;
}

/**
 * Reads the dose reports of one case, adds them up, and holds them against its record where one is given. A report of
 * another patient or case gives nothing to the record.
 *
 * @param readAt ISO 8601 with offset
 */
export async function readDoseFiles(
  given: readonly { readonly file: string; readonly bytes: Uint8Array }[],
  { record, readAt }: { readonly record?: CaseRecord | undefined; readonly readAt: string },
): Promise<DoseReading> {
  const files: (ReadDose & { readonly file: string })[] = [];
  // One after the other: each may take much memory while it is read.
  for (const { file, bytes } of given) files.push({ file, ...(await readDoseReport(bytes)) });
  const whole = files.flatMap(({ file, report }) => (report ? [{ file, report }] : []));
  const summary = combineDose(whole);
  const stranger = record ? whole.flatMap(one => belongs(one, record)) : [];
  const foreign = stranger.some(stops);
  const figures = record && !foreign ? compareDose(summary.figures, record.radiation) : [];
  const counted = foreign ? { ...summary, counted: [], figures: {} } : summary;
  const unread = files.flatMap(({ findings }) => findings);
  return {
    files,
    summary,
    compared: [...stranger, ...figures],
    contribution: doseContribution(
      { ...counted, findings: [...unread, ...summary.findings, ...stranger] },
      readAt,
    ),
  };
}
