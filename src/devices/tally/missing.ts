import { type Finding, finding } from '../../findings/finding.js';
import { type Message, message, type Param } from '../../findings/message.js';
import type { CaseRecord, MissingEntry } from '../../record/schema/record.js';

/** One line of the record's `missing`. */
export interface MissingLine {
  readonly index: number;
  readonly entry: MissingEntry;
}

/** How many of what is open the lines speak for, and for how many none does. */
export interface Taken {
  readonly taken: readonly { readonly line: MissingLine; readonly count: number }[];
  readonly rest: number;
}

/** What the record says cannot be found. */
export interface MissingLines {
  /** The lines about a device, or a part of one, and for how many of `open` each speaks. */
  take(device: string, part: string | undefined, open: number): Taken;
  /** A warning for each line that was taken, an error for each that speaks of what is accounted for. */
  findings(called: (entry: MissingEntry) => Param): Finding[];
}

export function missingLines({ missing = [] }: CaseRecord): MissingLines {
  const lines = missing.map((entry, index) => ({ index, entry, free: entry.count ?? Infinity, taken: 0 }));
  return {
    take: (device, part, open) => {
      const taken: { line: MissingLine; count: number }[] = [];
      let rest = open;
      for (const line of lines) {
        if (line.entry.device !== device || line.entry.part !== part) continue;
        const count = Math.min(line.free, rest);
        if (count <= 0) continue;
        line.free -= count;
        line.taken += count;
        rest -= count;
        taken.push({ line, count });
      }
      return { taken, rest };
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
