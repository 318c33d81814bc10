import type { WordKey } from '../../findings/languages.js';
import type { Printer } from '../print/printer.js';
import type { Cell, Fact, FactsBlock, Mark, Row, Section, SectionKey, TableBlock } from './model.js';

type Suffix<P extends string> = WordKey extends infer K ? (K extends `${P}.${infer S}` ? S : never) : never;
export type LabelKey = Suffix<'label'>;
export type ColumnKey = Suffix<'column'>;

/** A fact as a value, or what is said in its place. */
export type Stated = { readonly lines: readonly string[]; readonly mark: Mark };

/** What people wrote, split at their own line ends. */
export function written(text: string): string[] {
  return text
    .split(/\r\n?|[\n\u0085\u2028\u2029]/)
    .map(line => line.trim())
    .filter(line => line !== '');
}

export function said(...lines: readonly (string | undefined)[]): Stated {
  return { lines: lines.flatMap(line => (line === undefined ? [] : written(line))), mark: 'said' };
}

/** 'None', in the words that fit the matter. */
export function none(p: Printer, key: WordKey = 'absent.none'): Stated {
  return { lines: [p.say(key)], mark: 'none' };
}

/** Nothing was recorded; for a step of a case that was not done, it was not done. */
export function absent(p: Printer, step = false): Stated {
  return step && p.record.case.status === 'not done'
    ? { lines: [p.say('absent.notDone')], mark: 'not done' }
    : { lines: [p.say('absent.notRecorded')], mark: 'not recorded' };
}

export function fact(p: Printer, label: LabelKey, stated: Stated): Fact {
  return { key: label, label: p.say(`label.${label}`), ...stated, said: stated.mark === 'said' };
}

/** A fact that is left out where nothing was recorded: for details, never for what a reader looks for. */
export function detail(p: Printer, label: LabelKey, value: string | readonly string[] | undefined): Fact[] {
  const lines = value === undefined ? [] : [value].flat().flatMap(written);
  return lines.length === 0 ? [] : [fact(p, label, { lines, mark: 'said' })];
}

/** @param caption left out where the section's title says it already */
export function facts(
  p: Printer,
  caption: WordKey | undefined,
  list: readonly Fact[],
  across: FactsBlock['across'] = 1,
): FactsBlock {
  return { kind: 'facts', caption: caption === undefined ? '' : p.say(caption), facts: list, across };
}

/** What goes into one row: its key, then its cells in the order of the columns. */
export interface RowInput {
  readonly key: string;
  readonly cells: readonly (string | readonly (string | undefined)[] | undefined | null)[];
  readonly alert?: boolean;
}

/**
 * A table. The first cell of a row is its head. A cell without anything in it says 'Not recorded';
 * `null` leaves it empty, for a detail that nobody looks for.
 * @param wide rows are set out as lists in plain text
 */
export function table(
  p: Printer,
  caption: WordKey,
  columns: readonly ColumnKey[],
  rows: readonly RowInput[],
  wide = false,
): TableBlock {
  const titles = columns.map(column => p.say(`column.${column}`));
  const cell = (value: RowInput['cells'][number], index: number): Cell => {
    if (value === null) return { label: titles[index] ?? '', lines: [] };
    const lines = (Array.isArray(value) ? value : [value]).flatMap((line: string | undefined) =>
      line === undefined ? [] : written(line),
    );
    return { label: titles[index] ?? '', lines: lines.length > 0 ? lines : [p.say('absent.notRecorded')] };
  };
  return {
    kind: 'table',
    caption: p.say(caption),
    columns: titles,
    wide,
    quiet: false,
    items: false,
    rows: rows.map((row): Row => {
      const [head, ...cells] = titles.map((_, index) => cell(row.cells[index], index));
      return { key: row.key, head: head ?? cell(undefined, 0), cells, alert: row.alert ?? false };
    }),
  };
}

export function section(p: Printer, key: SectionKey, blocks: Section['blocks']): Section {
  const title = p.say(`section.${key}`);
  return {
    key,
    title,
    blocks: blocks.map(block =>
      block.kind === 'table' ? { ...block, quiet: block.caption === title } : block,
    ),
  };
}
