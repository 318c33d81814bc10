import { isUtf8 } from 'node:buffer';
import { constants, createReadStream, type Dirent } from 'node:fs';
import { open, opendir, realpath, stat } from 'node:fs/promises';
import { basename, join } from 'node:path';
import { CasetallyError, reason } from '../../../findings/errors.js';
import { type Finding, finding } from '../../../findings/finding.js';
import { folderName, lineFolderName } from '../../../pipeline/bulk/folder-name.js';
import { linesOf } from '../../../pipeline/bulk/lines.js';
import { MAX_BYTES } from '../../../record/read.js';
import { looksLikeCase } from '../case-files.js';

/** One thing that was found. `at`: how far it is, in the unit of the source's total. */
export type Found = { readonly at: number } & (
  | {
      readonly kind: 'record';
      /** From the folder, or as FILE:LINE. */
      readonly name: string;
      readonly bytes: Uint8Array;
      /** A file in the folder that pictures of the case lie in. */
      readonly file: string;
      /** The folder for its outputs. */
      readonly folder: (digest: string) => string;
      /** What there is to say of how it was found. */
      readonly notes: readonly Finding[];
    }
  | { readonly kind: 'bad'; readonly name: string; readonly findings: readonly Finding[] }
  /** A file of another kind. */
  | { readonly kind: 'other' }
);

/** Where records come from: read again from the beginning each time that it is asked for its entries. */
export interface Source {
  /** Without links. */
  readonly path: string;
  /** Files, or bytes: enough to say how much is left. */
  readonly total: number;
  entries(): AsyncGenerator<Found>;
}

/** Opens a folder of records, or a file with a record a line. @throws CasetallyError for anything else */
export async function openSource(place: string): Promise<Source> {
  const unread = (error: unknown) =>
    new CasetallyError('file-unreadable', `${place} cannot be read: ${reason(error)}.`, { cause: error });
  try {
    const [path, info] = [await realpath(place), await stat(place)];
    if (info.isDirectory()) {
      let total = 0;
      for await (const _ of walk(path, '')) total += 1;
      return { path, total, entries: () => recordsIn(path) };
    }
    if (info.isFile() && /\.(?:ndjson|jsonl)$/i.test(path))
      return { path, total: info.size, entries: () => linesIn(path) };
  } catch (error) {
    throw unread(error);
  }
  throw new CasetallyError(
    'usage',
    `${place} is neither a folder nor a file of lines (.ndjson, .jsonl). For one case: casetally send, prepare or register take.`,
  );
}

/** Folders with more entries are read in the order that the disk has. */
const MOST_SORTED = 100_000;

/** An entry of a folder; or a folder that cannot be read. */
type Walked = { readonly name: string } & ({ readonly entry: Dirent } | { readonly problem: string });

/** Files and links below a folder, in the order of their names. Links are not followed, so that there are no circles. */
async function* walk(root: string, within: string): AsyncGenerator<Walked> {
  let batch: Dirent[] = [];
  const each = async function* (entries: readonly Dirent[]): AsyncGenerator<Walked> {
    for (const entry of [...entries].sort((a, b) => (a.name < b.name ? -1 : 1))) {
      const name = within === '' ? entry.name : `${within}/${entry.name}`;
      if (entry.isDirectory() && !entry.name.startsWith('.')) yield* walk(root, name);
      else if (!entry.isDirectory()) yield { name, entry };
    }
  };
  try {
    for await (const entry of await opendir(join(root, within))) {
      batch.push(entry);
      if (batch.length < MOST_SORTED) continue;
      yield* each(batch);
      batch = [];
    }
  } catch (error) {
    if (within === '') throw error;
    yield { name: within, problem: reason(error) };
  }
  yield* each(batch);
}

const RECORD = /\.(?:ya?ml|json)$/i;

async function* recordsIn(root: string): AsyncGenerator<Found> {
  let at = 0;
  for await (const walked of walk(root, '')) {
    at += 1;
    const { name } = walked;
    if ('problem' in walked) {
      yield { kind: 'bad', at, name, findings: [finding('bulk.unread', '', { why: walked.problem })] };
      continue;
    }
    const { entry } = walked;
    const file = join(root, name);
    const isHidden = entry.name.startsWith('.');
    // A link without an ending may lead to a folder of cases.
    if (entry.isSymbolicLink() && !isHidden && (RECORD.test(name) || !entry.name.includes('.')))
      yield { kind: 'bad', at, name, findings: [finding('bulk.link', '', {})] };
    else if (!entry.isFile() || isHidden || !RECORD.test(name)) yield { kind: 'other', at };
    else yield { at, ...(await recordAt(file, name)) };
  }
}

type Unplaced<T> = T extends unknown ? Omit<T, 'at'> : never;

async function recordAt(file: string, name: string): Promise<Unplaced<Found>> {
  const { O_RDONLY, O_NOFOLLOW = 0, O_NONBLOCK = 0 } = constants;
  try {
    const handle = await open(file, O_RDONLY | O_NOFOLLOW | O_NONBLOCK);
    try {
      const { size } = await handle.stat();
      if (size > MAX_BYTES) return { kind: 'bad', name, findings: [tooBig(size)] };
      const bytes = await handle.readFile();
      if (!mayBeCase(bytes)) return { kind: 'other' };
      return { kind: 'record', name, bytes, file, folder: () => folderName(name), notes: [] };
    } finally {
      await handle.close();
    }
  } catch (error) {
    return { kind: 'bad', name, findings: [finding('bulk.unread', '', { why: reason(error) })] };
  }
}

/** What says that it is a case, and what can no longer say what it was. */
const mayBeCase = (bytes: Uint8Array): boolean =>
  bytes.length === 0 || bytes.includes(0) || !isUtf8(bytes) || looksLikeCase(bytes);

const tooBig = (size: number) => finding('record.too-big', '', { size: `${size}`, limit: `${MAX_BYTES}` });

async function* linesIn(file: string): AsyncGenerator<Found> {
  const base = basename(file);
  try {
    for await (const line of linesOf(createReadStream(file), MAX_BYTES)) {
      const { bytes, size, upTo: at } = line;
      const name = `${base}:${line.number}`;
      const notes = line.ended ? [] : [finding('bulk.cut-off', '', {})];
      if (bytes)
        yield {
          kind: 'record',
          at,
          name,
          bytes,
          file,
          folder: digest => lineFolderName(base, digest),
          notes,
        };
      else yield { kind: 'bad', at, name, findings: [tooBig(size), ...notes] };
    }
  } catch (error) {
    if (error instanceof CasetallyError) throw error;
    throw new CasetallyError('file-unreadable', `${file} cannot be read on: ${reason(error)}.`, {
      cause: error,
    });
  }
}
