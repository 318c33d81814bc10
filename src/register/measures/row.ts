import { type Proportion, proportionOf } from './proportion.js';
import { withoutSmallCells } from './small-cells.js';

/** Counts that make up a total, by name; one that is undefined is not shown. */
export interface CountedRow<Column extends string = string> {
  readonly name: string;
  readonly total: number | undefined;
  readonly counts: Readonly<Record<Column, number | undefined>>;
}

/** Counts of a row without small cells. */
export function countedRow<Column extends string>(
  name: string,
  counts: Readonly<Record<Column, number>>,
  k: number,
): CountedRow<Column> {
  const columns = Object.keys(counts) as Column[];
  const { cells, total } = withoutSmallCells(
    columns.map(column => counts[column]),
    k,
  );
  return {
    name,
    total,
    counts: Object.fromEntries(columns.map((column, at) => [column, cells[at]])) as Record<
      Column,
      number | undefined
    >,
  };
}

/** A share of two counts that together are all of it; undefined where either is not shown. */
export function shareOf(count: number | undefined, rest: number | undefined): Proportion | undefined {
  return count === undefined || rest === undefined ? undefined : proportionOf(count, count + rest);
}

/** A total that is not of a row: not shown where it is small. */
export const largeEnough = (count: number, k: number): number | undefined =>
  count > 0 && count < k ? undefined : count;
