import { createReadStream } from 'node:fs';
import { readFile } from 'node:fs/promises';
import { createInterface } from 'node:readline';
import { CasetallyError } from '../findings/errors.js';
import type { Result, ValidateOptions, Validator } from './result.js';

/** The result for one file, or for one line of an NDJSON file. */
export interface FileResult {
  readonly file: string;
  /** Line of the NDJSON file, from 1; the lines of the issues are within this record. */
  readonly record?: number;
  readonly result: Result;
}

/**
 * Validates files one after the other. `.ndjson` files are read line by line, so their size does not
 * matter. Reads files: an edge. A file that cannot be read is a CasetallyError `file-unreadable`.
 */
export async function* validateFiles(
  validator: Validator,
  files: Iterable<string>,
  options: ValidateOptions = {},
): AsyncGenerator<FileResult> {
  for (const file of files) {
    if (/\.ndjson$/i.test(file)) yield* validateLines(validator, file, linesOf(file), options);
    else yield { file, result: validator.validateText(await textOf(file), options) };
  }
}

/** Validates one resource a line; empty lines are passed over. `name` is what the results call the input. */
export async function* validateLines(
  validator: Validator,
  name: string,
  lines: AsyncIterable<string>,
  options: ValidateOptions = {},
): AsyncGenerator<FileResult> {
  let record = 0;
  for await (const line of lines) {
    record += 1;
    if (line.trim() !== '') yield { file: name, record, result: validator.validateText(line, options) };
  }
}

async function textOf(file: string): Promise<string> {
  try {
    return await readFile(file, 'utf8');
  } catch (cause) {
    throw unreadable(file, cause);
  }
}

async function* linesOf(file: string): AsyncGenerator<string> {
  try {
    const input = createReadStream(file, 'utf8');
    // An error event of the stream must reach the reader, who waits for lines.
    const failed = new Promise<never>((_resolve, reject) => input.once('error', reject));
    failed.catch(() => undefined);
    const lines = createInterface({ input, crlfDelay: Number.POSITIVE_INFINITY })[Symbol.asyncIterator]();
    for (;;) {
      const next = await Promise.race([lines.next(), failed]);
      if (next.done) return;
      yield next.value;
    }
  } catch (cause) {
    throw unreadable(file, cause);
  }
}

function unreadable(file: string, cause: unknown): CasetallyError {
  const why = cause instanceof Error ? cause.message : String(cause);
  return new CasetallyError('file-unreadable', `The file ${file} cannot be read: ${why}`, { cause });
}
