import type { Fact, FactsBlock, Row, TableBlock } from '../view/model.js';
import { pad, width, wrap } from './wrap.js';

/** Columns of a plain text report. */
export const COLUMNS = 80;
const GAP = 2;
/** Tables stand in from the edge, so that nothing written in a cell can look like a heading or a notice. */
const MARGIN = '  ';

/** A title with a rule under it. */
export function heading(title: string, rule: string): string {
  const lines = wrap(title, COLUMNS);
  const longest = Math.max(...lines.map(width));
  return [...lines, rule.repeat(longest)].join('\n');
}

/** `label   value`, the values one under the other; long values go on under themselves. */
export function pairs(list: readonly (readonly [string, readonly string[]])[], indent: number): string[] {
  const longest = Math.max(0, ...list.map(([label]) => width(label)));
  const column = Math.min(longest, 24) + GAP;
  const room = COLUMNS - indent - column;
  const margin = ' '.repeat(indent);
  return list.flatMap(([label, values]) => {
    const left = wrap(label, column - GAP);
    const right = values.flatMap(value => wrap(value, room));
    return Array.from({ length: Math.max(left.length, right.length) }, (_, row) =>
      `${margin}${pad(left[row] ?? '', column)}${right[row] ?? ''}`.trimEnd(),
    );
  });
}

export function factsText(block: FactsBlock): string {
  const rows = pairs(
    block.facts.map((fact: Fact) => [fact.label, fact.lines] as const),
    0,
  );
  return [...(block.caption === '' ? [] : [`${block.caption}:`]), ...rows].join('\n');
}

/** Rows under one another as lists: for tables that do not fit beside each other. */
function stacked(block: TableBlock): string[] {
  return block.rows.flatMap((row, index) => [
    ...(index === 0 ? [] : ['']),
    ...bulleted(row.alert ? '! ' : '- ', row.head.lines),
    ...pairs(
      row.cells.filter(cell => cell.lines.length > 0).map(cell => [cell.label, cell.lines] as const),
      2,
    ),
  ]);
}

/** Lines behind a mark; what is too long goes on under itself. */
export function bulleted(mark: string, lines: readonly string[]): string[] {
  const room = COLUMNS - width(mark);
  return lines
    .flatMap(line => wrap(line, room))
    .map((line, index) => (index === 0 ? mark : ' '.repeat(width(mark))) + line);
}

function across(block: TableBlock): string[] {
  const grid = block.rows.map((row: Row) => [row.head, ...row.cells].map(cell => cell.lines));
  const widths = narrowed(
    block.columns.map((title, column) =>
      Math.max(width(title), ...grid.map(row => Math.max(0, ...(row[column] ?? []).map(width)))),
    ),
    COLUMNS - MARGIN.length - GAP * (block.columns.length - 1),
  );
  const print = (cells: readonly (readonly string[])[]) => {
    const wrapped = cells.map((cell, column) => cell.flatMap(line => wrap(line, widths[column] ?? 1)));
    const height = Math.max(...wrapped.map(cell => cell.length));
    return Array.from({ length: height }, (_, line) =>
      (
        MARGIN +
        wrapped.map((cell, column) => pad(cell[line] ?? '', widths[column] ?? 0)).join(' '.repeat(GAP))
      ).trimEnd(),
    );
  };
  return [
    ...print(block.columns.map(title => [title])),
    MARGIN + widths.map(w => '-'.repeat(w)).join(' '.repeat(GAP)),
    ...grid.flatMap(print),
  ];
}

/** Takes from the widest column until all fit. */
function narrowed(natural: readonly number[], room: number): number[] {
  const widths = [...natural];
  for (let over = widths.reduce((sum, w) => sum + w, 0) - room; over > 0; ) {
    const widest = widths.indexOf(Math.max(...widths));
    const others = Math.max(8, ...widths.filter((_, index) => index !== widest));
    const cut = Math.max(1, Math.min(over, (widths[widest] ?? 0) - others));
    widths[widest] = (widths[widest] ?? 0) - cut;
    over -= cut;
  }
  return widths;
}

/** Things with what is known of each, without titles of columns. */
function items({ rows }: TableBlock): string[] {
  return rows.flatMap(({ head, cells }) => listed([head, ...cells].flatMap(cell => cell.lines)));
}

/** One entry of a list: its first line behind a dash, the others standing in. */
export function listed([first = '', ...more]: readonly string[]): string[] {
  return [...bulleted('- ', [first]), ...more.flatMap(line => bulleted('    ', [line]))];
}

export function tableText(block: TableBlock): string {
  if (block.items) return items(block).join('\n');
  const rows = block.wide ? stacked(block) : across(block);
  return [...(block.quiet ? [] : [`${block.caption}:`]), ...rows].join('\n');
}
