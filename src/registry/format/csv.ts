import { stringify } from 'csv-stringify/sync';
import { textsOf } from '../definition/agreed.js';
import type { RegistryDefinition } from '../definition/schema.js';
import { codingOf } from '../entry/codes.js';
import type { ElementName, EntryElements } from '../entry/elements.js';

type CsvFormat = Extract<RegistryDefinition['format'], { kind: 'csv' }>;

/** Entries as a CSV file in the dialect of a registry, a line each, in the order given. */
export function* csvBatch(
  entries: Iterable<EntryElements>,
  definition: Pick<RegistryDefinition, 'elements' | 'format'>,
  format: CsvFormat,
): Generator<string> {
  const { columns } = format;
  const line = (cells: readonly string[], bom = false) =>
    stringify([[...cells]], {
      bom,
      delimiter: format.delimiter,
      quoted: format.quote === 'always',
      quoted_empty: format.quote === 'always',
      record_delimiter: format.newline === 'CRLF' ? 'windows' : 'unix',
    });
  let bom = format.byteOrderMark;
  if (format.header) {
    yield line(
      columns.map(name => definition.elements[name]?.column ?? name),
      bom,
    );
    bom = false;
  }
  for (const entry of entries) {
    yield line(
      columns.map(name => cell(entry, name, definition, format)),
      bom,
    );
    bom = false;
  }
}

function cell(
  entry: EntryElements,
  name: ElementName,
  { elements }: Pick<RegistryDefinition, 'elements'>,
  { listSeparator }: CsvFormat,
): string {
  const rule = elements[name];
  const spelt = (text: string) =>
    rule?.as?.[text] ?? (rule?.system === undefined ? text : codingOf(text).code);
  return textsOf(entry[name]).map(spelt).join(listSeparator);
}
