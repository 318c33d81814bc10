import type { PlacedRow } from '../../../src/pipeline/case-trays.js';
import { at, isGroup, listAt, type Tree } from '../desk/tree.js';
import type { Edit } from '../engine/work.js';

export type Said = Readonly<Record<string, Tree>>;

/** Something in the patient by the tally, and what the record says of it at the end. */
export interface Remaining {
  readonly placed: PlacedRow;
  /** How many of it nobody has said anything about. */
  readonly open: number;
  /** Where the record says that it stays, or cannot be found. */
  readonly paths: readonly string[];
}

/** What is in the patient, in the order of the page. */
export function remainingIn(placed: readonly PlacedRow[], tree: Tree | undefined): readonly Remaining[] {
  return placed
    .filter(({ tray }) => tray === 'in the patient')
    .map(row => {
      const about = (['left', 'missing'] as const).flatMap(list =>
        listAt(tree, list).flatMap((entry, index) =>
          isGroup(entry) && entry['device'] === row.device && entry['part'] === row.part
            ? [{ path: `${list}[${index}]`, count: Number(entry['count'] ?? row.count) || 0 }]
            : [],
        ),
      );
      const said = about.reduce((sum, { count }) => sum + Math.max(count, 0), 0);
      return { placed: row, open: Math.max(0, row.count - said), paths: about.map(({ path }) => path) };
    });
}

/** What identifies the thing in an entry. One of several says how many. */
export const thingOf = (
  { device, part, count: there }: PlacedRow,
  tree: Tree | undefined,
  open: number,
): Said => ({
  device,
  ...(part !== undefined && { part }),
  ...((there > 1 || Number(at(tree, `devices.${device}.count`) ?? 1) > 1) && { count: `${open}` }),
});

/** Adds an entry to a list of the record, which may say `none` so far. */
export const addTo = (tree: Tree | undefined, list: string, value: Said): Edit =>
  Array.isArray(at(tree, list))
    ? { path: list, insert: 'end', value: { ...value } }
    : { path: list, value: [{ ...value }] };

/**
 * The edits that say that something stays. Who takes it out stands in the aftercare plan, with when.
 * @param task words of the plan, such as `Remove 8 Fr drainage catheter`
 */
export function stayEdits(
  tree: Tree | undefined,
  thing: Said,
  said: Said,
  by: string | undefined,
  task: string,
): readonly Edit[] {
  const until = said['until'];
  const [date, condition] = ['date', 'condition'].map(name => (isGroup(until) ? until[name] : undefined));
  const due = date ?? said['latest'];
  const plan: Said = {
    do: task,
    ...(thing['device'] !== undefined && { device: thing['device'] }),
    ...(date !== undefined ? { due: date } : due !== undefined && { latest: due }),
    ...(condition !== undefined && { when: condition }),
    by: by ?? '',
  };
  return [
    addTo(tree, 'left', { ...thing, ...said }),
    ...(by === undefined ? [] : [addTo(tree, 'aftercare', plan)]),
  ];
}
