import type { Parser } from 'csv-parse';
import { parse } from 'csv-parse';
import { CasetallyError } from '../../findings/errors.js';
import type { Finding } from '../../findings/finding.js';
import { finding } from '../../findings/finding.js';
import { message, type Param } from '../../findings/message.js';
import type { CatalogueRow } from './row.js';
import { catalogueRow, normalDi, sameDetails } from './row.js';

/** How to read a catalogue. */
export interface CatalogueOptions {
  /** `csv` with a line of column names; `json` for an array of objects or one object a line. */
  readonly format: 'csv' | 'json';
  /** Only these identifiers are kept; all when absent (then memory grows with the catalogue). */
  readonly wanted?: Iterable<string>;
  /** Column names of the site, by ours: `{ di: 'GTIN', description: 'Artikel' }`. */
  readonly columns?: Readonly<Record<string, string>>;
  /** Separator of a CSV; comma, semicolon or tab is found from the first line when absent. */
  readonly delimiter?: string;
  /** Name of the catalogue in findings; `catalogue` when absent. */
  readonly path?: string;
  /** Findings kept; a catalogue in the wrong form would give one for every line. */
  readonly maxFindings?: number;
}

/** Longest line in characters; a quote that is never closed would take in the rest of the file. */
const maxRecord = 1_000_000;

/** What was found in a catalogue. */
export interface CatalogueLookup {
  /** By device identifier, as labels give it. */
  readonly rows: ReadonlyMap<string, CatalogueRow>;
  readonly findings: readonly Finding[];
  /** Lines read, the line of column names not counted. */
  readonly read: number;
  /** Findings left out because of `maxFindings`. */
  readonly more: number;
}

interface Numbered {
  readonly line: number;
  readonly record?: Readonly<Record<string, unknown>>;
  readonly problem?: Param;
  readonly missing?: string;
}

/**
 * Reads a catalogue from a stream of text or bytes (a file, a response) and keeps the rows asked for.
 * Memory is bounded by the rows kept, not by the length of the catalogue. Bad lines are findings with their
 * line number; the rest is still read.
 */
export async function readCatalogue(
  source: AsyncIterable<string | Uint8Array>,
  options: CatalogueOptions,
): Promise<CatalogueLookup> {
  const path = options.path ?? 'catalogue';
  const limit = options.maxFindings ?? 200;
  const wanted =
    options.wanted === undefined ? undefined : new Set([...options.wanted].map(di => normalDi(di) ?? di));
  const rows = new Map<string, CatalogueRow>();
  const findings: Finding[] = [];
  let read = 0;
  let more = 0;
  const note = (found: Finding) => {
    if (findings.length < limit) findings.push(found);
    else more += 1;
  };
  const numbered = options.format === 'csv' ? csvRecords(source, options) : jsonRecords(source);
  for await (const { line, record, problem, missing } of numbered) {
    if (missing !== undefined) note(finding('catalogue.column-missing', path, { column: missing }, { line }));
    if (problem !== undefined)
      note(finding('catalogue.unreadable', path, { line: `${line}`, problem }, { line }));
    if (record === undefined) continue;
    read += 1;
    const { row, findings: found } = catalogueRow(renamed(record, options.columns), line, path);
    for (const one of found) note(one);
    if (row === undefined || (wanted !== undefined && !wanted.has(row.di))) continue;
    const first = rows.get(row.di);
    if (first === undefined) rows.set(row.di, row);
    else if (!sameDetails(first, row)) {
      const params = { line: `${line}`, di: row.di, first: `${first.line}` };
      note(finding('catalogue.repeated', path, params, { line }));
    }
  }
  // The parser runs ahead of its records, so that a line it skipped may come early.
  findings.sort((a, b) => (a.line ?? 0) - (b.line ?? 0));
  return { rows, findings, read, more };
}

function renamed(
  record: Readonly<Record<string, unknown>>,
  columns: Readonly<Record<string, string>> | undefined,
): Readonly<Record<string, unknown>> {
  if (columns === undefined) return record;
  const own = Object.entries(columns).map(([ours, theirs]) => [ours, record[theirs]]);
  return { ...record, ...Object.fromEntries(own) };
}

/** Text in pieces, whatever the pieces were cut at. */
async function* decoded(source: AsyncIterable<string | Uint8Array>): AsyncGenerator<string> {
  const decoder = new TextDecoder('utf-8');
  for await (const chunk of source)
    yield typeof chunk === 'string' ? chunk : decoder.decode(chunk, { stream: true });
  yield decoder.decode();
}

async function* csvRecords(
  source: AsyncIterable<string | Uint8Array>,
  options: CatalogueOptions,
): AsyncGenerator<Numbered> {
  const di = options.columns?.['di'] ?? 'di';
  const queue: Numbered[] = [];
  let names: readonly string[] | undefined;
  const { first, pieces } = await startOf(decoded(source));
  const delimiter = options.delimiter ?? delimiterOf(first);
  const parser = parse({
    bom: true,
    relax_column_count: true,
    skip_empty_lines: true,
    skip_records_with_error: true,
    max_record_size: maxRecord,
    info: true,
    relax_quotes: true,
    delimiter,
    on_skip: problem => {
      queue.push({
        line: Number(/at line (\d+)/.exec(problem?.message ?? '')?.[1] ?? problem?.['lines'] ?? 0),
        problem: plainProblem(problem?.code),
      });
    },
  });
  const feed = feedParser(pieces, parser);
  for await (const { record, info } of parser as AsyncIterable<{
    record: string[];
    info: { lines: number };
  }>) {
    yield* queue.splice(0);
    if (names === undefined) {
      names = record.map(name => name.trim());
      if (!names.includes(di)) yield { line: 1, missing: di };
      if (!names.includes(di)) break;
      continue;
    }
    if (record.length > names.length) {
      const problem = message('listed.columns', { n: `${record.length}`, wanted: `${names.length}` });
      yield { line: info.lines, problem };
      continue;
    }
    yield { line: info.lines, record: Object.fromEntries(names.map((name, i) => [name, record[i] ?? ''])) };
  }
  yield* queue.splice(0);
  await feed;
}

/** The first line of a text in pieces, and the whole text again in pieces. */
async function startOf(
  pieces: AsyncGenerator<string>,
): Promise<{ first: string; pieces: AsyncIterable<string> }> {
  let start = '';
  while (!start.includes('\n') && start.length < maxRecord) {
    const next = await pieces.next();
    if (next.done === true) break;
    start += next.value;
  }
  async function* again(): AsyncGenerator<string> {
    yield start;
    yield* pieces;
  }
  return { first: start.split('\n')[0] ?? '', pieces: again() };
}

/** The separator that the line of column names holds most of. */
export function delimiterOf(line: string): string {
  const counts = [',', ';', '\t'].map(delimiter => ({ delimiter, count: line.split(delimiter).length }));
  return counts.reduce((best, one) => (one.count > best.count ? one : best)).delimiter;
}

/** Writes to the parser no faster than it reads; stops when the reader has left, and passes a failed source on. */
async function feedParser(pieces: AsyncIterable<string>, parser: Parser): Promise<void> {
  try {
    for await (const piece of pieces) {
      if (parser.destroyed) return;
      if (!parser.write(piece)) await drained(parser);
    }
    if (!parser.destroyed) parser.end();
  } catch (cause) {
    parser.destroy(
      new CasetallyError('file-unreadable', 'The device catalogue could not be read to its end', { cause }),
    );
  }
}

function drained(parser: Parser): Promise<void> {
  return new Promise(resolve => {
    const done = () => {
      parser.off('drain', done);
      parser.off('close', done);
      resolve();
    };
    parser.once('drain', done);
    parser.once('close', done);
  });
}

export function plainProblem(code: string | undefined): string {
  return (code ?? 'unreadable').toLowerCase().replace(/^csv_/, '').replaceAll('_', ' ');
}

/** Objects one a line, with or without the brackets and commas of an array around them. */
async function* jsonRecords(source: AsyncIterable<string | Uint8Array>): AsyncGenerator<Numbered> {
  let rest = '';
  let line = 0;
  const numbered = (text: string): Numbered | undefined => {
    line += 1;
    const bare = text
      .replace(/^\ufeff/, '')
      .trim()
      .replace(/^\[(?=\s*(\{|$))/, '')
      .replace(/(\}?)\s*\]?\s*,?$/, '$1')
      .trim();
    if (bare === '' || bare === ',' || bare === ']') return undefined;
    try {
      const value: unknown = JSON.parse(bare);
      if (typeof value === 'object' && value !== null && !Array.isArray(value))
        return { line, record: { ...value } };
      return { line, problem: message('listed.noObject') };
    } catch {
      return { line, problem: message('listed.noJson') };
    }
  };
  for await (const piece of decoded(source)) {
    rest += piece;
    const lines = rest.split('\n');
    rest = lines.pop() ?? '';
    for (const text of lines) {
      const one = numbered(text);
      if (one !== undefined) yield one;
    }
  }
  const last = numbered(rest);
  if (last !== undefined) yield last;
}
