import { at, type Tree, textAt } from '../desk/tree.js';
import type { Edit } from '../engine/work.js';

export const kinds = ['amended', 'appended', 'withdrawn'] as const;
export type Kind = (typeof kinds)[number];

/** Who begins a new version of a report, and why. */
export interface Change {
  readonly kind: Kind;
  readonly by: string | undefined;
  readonly why: string;
  /** A time of the record. */
  readonly at: string;
}

/** Edits that make the next version of a report from the text that was sent: not signed, with its change said. */
export function nextVersion(tree: Tree | undefined, { kind, by, why, at: when }: Change): readonly Edit[] {
  const version = Number(textAt(tree, 'report.version') ?? at(tree, 'report.version') ?? 1);
  const change = { of: `${version}`, ...(by !== undefined && { by }), at: when, why };
  return [
    { path: 'report.status', value: kind },
    { path: 'report.version', value: `${version + 1}` },
    { path: 'report.change', value: change },
    ...(at(tree, 'report.signedAt') === undefined
      ? []
      : [{ path: 'report.signedAt', remove: true } as const]),
  ];
}
