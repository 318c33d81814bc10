import type { Contribution } from '../intake/contribution.js';
import { lineContextOf } from '../intake/lines/context.js';
import { linesContribution } from '../intake/lines/contribute.js';
import { type ReadLines, readLines } from '../intake/lines/read.js';
import type { LineContext } from '../intake/lines/types.js';
import type { Site } from '../site/site.js';
import type { CheckedCase } from './check.js';

export interface CaseLinesOptions {
  /** The case that the lines belong to; without one every device is new. */
  readonly opened?: CheckedCase | undefined;
  readonly site: Site;
  /** When they were said, ISO 8601 with offset. */
  readonly said: string;
  /** Time of receipt for lines without a time, `HH:MM`. */
  readonly at?: string | undefined;
  readonly accept?: boolean;
}

/** What was read, and what it gives to the record. */
export interface CaseLines extends ReadLines {
  readonly contribution: Contribution;
}

/** Reads lines against a case. Empty lines are left out. */
export function readCaseLines(
  lines: readonly string[],
  { opened, site, said, at, accept }: CaseLinesOptions,
): CaseLines {
  const { record, assessment } = opened ?? {};
  const of = record && assessment ? lineContextOf(record, assessment.devices, site.timeZone) : {};
  const context: LineContext = { ...of, ...(at !== undefined && { at }) };
  const read = readLines(
    lines.filter(line => line.trim() !== ''),
    context,
  );
  return { ...read, contribution: linesContribution(read, context, { at: said, accept: accept === true }) };
}
