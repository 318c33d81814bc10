import { type Finding, finding } from '../../findings/finding.js';
import { message, type Param } from '../../findings/message.js';
import { died } from '../../record/died.js';
import { entriesOf } from '../../record/entries.js';
import type { CaseRecord, LeftEntry } from '../../record/schema/record.js';
import { partNamed } from '../parts.js';
import type { DeviceFamily, EndState } from '../types.js';
import { type MissingLines, missingLines } from './missing.js';
import type { DeviceState } from './state.js';

/** One line of the record's `left`. */
export interface LeftLine {
  readonly index: number;
  readonly path: string;
  readonly entry: LeftEntry;
}

/** What the record says stays in the patient. */
export interface LeftLines {
  /** The line about a device or one of its parts; `lost` asks for the one that calls it unintended. */
  about(device: string, part: string | undefined, lost: boolean): LeftLine | undefined;
  readonly all: readonly LeftLine[];
  /** What it says cannot be found. */
  readonly missing: MissingLines;
  readonly findings: readonly Finding[];
}

/** Indexes `left`; two lines about the same thing are a finding. */
export function leftLines(record: CaseRecord): LeftLines {
  const entries = entriesOf(record.left);
  const all = entries.map((entry, index): LeftLine => ({ index, path: `left[${index}]`, entry }));
  const findings: Finding[] = [];
  const seen = new Map<string, LeftLine>();
  for (const line of all) {
    const { device, part, purpose } = line.entry;
    const key = JSON.stringify([device, part, purpose === 'unintended']);
    const first = seen.get(key);
    if (first)
      findings.push(finding('tally.left-twice', line.path, { what: named(line), first: first.path }));
    else seen.set(key, line);
  }
  return {
    all,
    missing: missingLines(record),
    findings,
    about: (device, part, lost) => {
      const lines = all.filter(({ entry }) => entry.device === device && entry.part === part);
      return (
        lines.find(({ entry }) => (entry.purpose === 'unintended') === lost) ?? (lost ? undefined : lines[0])
      );
    },
  };
}

export const named = ({ entry: { part, device } }: LeftLine): Param =>
  part === undefined ? device : message('name.part', { part: partNamed(part), device });

/** Families that are not placed to stay: what of them stays needs a purpose in words. */
const passing: ReadonlySet<DeviceFamily> = new Set([
  'needle',
  'guidewire',
  'catheter',
  'sheath',
  'dilator',
  'balloon',
  'retrieval',
  'accessory',
]);

/** What a line of `left` makes of something inside: from its purpose, else from its terms and the kind of device. */
export function leftState(
  line: LeftLine,
  { details }: DeviceState,
): { state: EndState; findings: Finding[] } {
  const { entry, path } = line;
  if (entry.purpose === 'unintended')
    return {
      state: 'retained unintended',
      findings: [finding('tally.retained', path, { what: named(line) })],
    };
  if (entry.purpose === 'intended') return { state: 'in situ intended', findings: [] };
  const termed = entry.until !== undefined || entry.latest !== undefined;
  if (entry.purpose === undefined && !termed) {
    if (entry.part !== undefined || (passing.has(details.family) && !details.implant))
      return {
        state: 'in situ temporary',
        findings: [finding('tally.purpose-missing', path, { what: named(line) })],
      };
  }
  if (entry.purpose === undefined && details.implant) return { state: 'in situ intended', findings: [] };
  return { state: 'in situ temporary', findings: [] };
}

/** A temporary device needs a condition or date of removal, in `left` or in the aftercare. */
export function conditionMissing(record: CaseRecord, line: LeftLine): boolean {
  const { until, latest, device } = line.entry;
  if (died(record)) return false;
  if (until?.condition !== undefined || until?.date !== undefined || latest !== undefined) return false;
  return !record.aftercare?.some(
    item => item.device === device && (item.due ?? item.latest ?? item.earliest ?? item.when) !== undefined,
  );
}

/** How many of `rest` alike that stay a line speaks for, and what is wrong with the number. */
export function leftCount(
  line: LeftLine,
  { label, total }: DeviceState,
  rest: number,
): { count: number; findings: Finding[] } {
  const said = line.entry.count;
  const place = { what: label, number: String(rest) };
  if (said === undefined)
    return {
      count: rest,
      findings: total > 1 ? [finding('tally.left-count-missing', line.path, place)] : [],
    };
  if (said === rest) return { count: rest, findings: [] };
  return {
    count: Math.min(said, rest),
    findings: [finding('tally.left-count', `${line.path}.count`, { ...place, said: String(said) })],
  };
}
