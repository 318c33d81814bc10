import type { PlacedRow } from '../../../src/pipeline/case-trays.js';
import type { Chosen } from '../../../src/trays/taps.js';
import { say } from '../../words.js';
import { type Tree, textAt } from '../desk/tree.js';

/** What a device is called, by its key. */
export function nameIn(placed: readonly PlacedRow[], tree: Tree | undefined): (key: string) => string {
  const names = new Map(
    placed.filter(({ part }) => part === undefined).map(({ device, name }) => [device, name]),
  );
  return key => names.get(key) ?? textAt(tree, `devices.${key}.kind`) ?? key;
}

/** `over the wire, through the sheath`: what stands on a button that writes it. */
export function waysSaid(
  { over, through, replaces, with: together = [] }: Chosen,
  name: (key: string) => string,
): string {
  const parts = [
    ...(replaces === undefined ? [] : [say('case.way.replaces', { what: name(replaces) })]),
    ...(over === undefined ? [] : [say('case.way.over', { what: name(over) })]),
    ...(through === undefined ? [] : [say('case.way.through', { what: name(through) })]),
    ...together.map(key => say('case.way.with', { what: name(key) })),
  ];
  return parts.join(', ');
}
