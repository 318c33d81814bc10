import { type Finding, finding } from '../../findings/finding.js';
import type { LeftLine } from './left.js';
import { type DeviceState, type PartState, partLabel } from './state.js';

/** Those of several alike that stay against intention, although no event lost them: a coil in the wrong branch. */
export interface Against {
  readonly count: number;
  /** What is wrong with the numbers of both lines together; where there is something, they were judged. */
  readonly findings: readonly Finding[];
}

/**
 * How many of those inside the unintended line of `left` speaks for beside those that were lost. Without a number it is
 * what the other line leaves, or one.
 * @param unintended the line that calls some unintended
 * @param other the line about those that are meant to be inside; the same one where there is no other
 */
export function closeAgainst(
  { inside, lost, label }: DeviceState,
  unintended: LeftLine | undefined,
  other: LeftLine | undefined,
): Against {
  const two = other !== undefined && other !== unintended;
  if (!unintended || !(two || lost > 0)) return { count: 0, findings: [] };
  const held = inside - lost;
  const said = unintended.entry.count;
  const rest = two ? other.entry.count : undefined;
  const claimed = lost > 0 ? 0 : rest === undefined ? 1 : Math.max(0, held - rest);
  const count = Math.min(held, said === undefined ? claimed : Math.max(0, said - lost));
  const all = (said ?? lost + count) + (two ? (rest ?? Math.max(1, held - count)) : 0);
  const path = said === undefined ? unintended.path : `${unintended.path}.count`;
  const wrong = (number: number, of: number) => [
    finding('tally.left-count', path, { what: label, said: `${number}`, number: `${of}` }),
  ];
  if (all > inside) return { count, findings: wrong(all, inside) };
  return { count, findings: said !== undefined && said < lost ? wrong(said, lost) : [] };
}

/** The numbers that lines of `left` give of a part, against how many of it each of them speaks for. */
export function partCounts(
  state: DeviceState,
  part: PartState,
  lines: readonly LeftLine[],
  spokenFor: ReadonlyMap<LeftLine, number>,
): Finding[] {
  const there = (state.inside > 0 || state.out > 0) && part.count > part.out;
  const numberOf = (line: LeftLine) => spokenFor.get(line) ?? 0;
  const wrong = lines.find(
    line => numberOf(line) === 0 || (line.entry.count ?? numberOf(line)) !== numberOf(line),
  );
  if (!there || !wrong) return [];
  const sum = (of: (line: LeftLine) => number) => `${lines.reduce((all, line) => all + of(line), 0)}`;
  const params = {
    what: partLabel(state, part),
    said: sum(line => line.entry.count ?? (numberOf(line) || 1)),
    number: sum(numberOf),
  };
  return [
    finding('tally.left-count', wrong.entry.count === undefined ? wrong.path : `${wrong.path}.count`, params),
  ];
}
