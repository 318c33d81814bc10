import { type Finding, finding } from '../../findings/finding.js';
import { type Message, message, type Param } from '../../findings/message.js';
import type { CaseRecord, MissingEntry } from '../../record/schema/record.js';

/** One line of the record's `missing`. */
export interface MissingLine {
  readonly index: number;
  readonly entry: MissingEntry;
}

/** What the record says cannot be found. */
export interface MissingLines {
  /** The line about a device, or a part of one, that is open, and for how many of `open` it speaks. */
  take(
    device: string,
    part: string | undefined,
    open: number,
  ): { readonly line: MissingLine; readonly count: number } | undefined;
  /** A warning for each line that was taken, an error for each that speaks of what is accounted for. */
  findings(called: (entry: MissingEntry) => Param): Finding[];
}

export function missingLines({ missing = [] }: CaseRecord): MissingLines {
  const lines = missing.map((entry, index) => ({ index, entry, free: entry.count ?? Infinity, taken: 0 }));
  return {
    take: (device, part, open) => {
      const line = lines.find(
        ({ entry, free }) => entry.device === device && entry.part === part && free > 0,
      );
      if (!line || open <= 0) return undefined;
      const count = Math.min(line.free, open);
      line.free -= count;
      line.taken += count;
      return { line, count };
    },
    findings: called =>
      lines.map(({ index, entry, taken }) => {
        const path = `missing[${index}]`;
        const what = called(entry);
        const { searched, imaging } = entry;
        return taken > 0
          ? finding('tally.missing', path, { what, searched, imaging })
          : finding('tally.missing-accounted', path, { what });
      }),
  };
}

/** Why something is called missing. */
export const whyMissing = ({ entry: { searched, imaging } }: MissingLine): Message =>
  message('end.missing', { searched, imaging });
