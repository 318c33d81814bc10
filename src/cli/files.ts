import { lstat, mkdir, mkdtemp, readFile, rename, rm, stat, writeFile } from 'node:fs/promises';
import { basename, dirname, join, resolve } from 'node:path';
import { CasetallyError, reason } from '../findings/errors.js';

/** Files larger than this are not even opened: no input of Casetally comes near. */
const MAX_FILE = 64 * 1024 * 1024;

/** Bytes that lines may have which are read as events: far more than the lines that are. */
export const MOST_LINE_BYTES = 1_000_000;

/** Reads a file as bytes, `most` at the most. */
export async function readBytes(
  path: string,
  { most = MAX_FILE }: { readonly most?: number } = {},
): Promise<Uint8Array> {
  try {
    const info = await stat(path);
    if (info.isDirectory())
      throw new CasetallyError('file-unreadable', `${path} is a folder; name a file in it.`);
    if (info.size > most)
      throw new CasetallyError('file-unreadable', `${path} has ${info.size} bytes; up to ${most} are read.`);
    return await readFile(path);
  } catch (error) {
    if (error instanceof CasetallyError) throw error;
    throw new CasetallyError('file-unreadable', `${path} cannot be read: ${reason(error)}.`, {
      cause: error,
    });
  }
}

/** What is written: whole, or piece by piece. */
export type FileContent = string | Uint8Array | Iterable<string>;

/**
 * Writes all files or none: they are written beside the folder and moved in when the last one is on disk.
 * Files of the same names that were there before are replaced.
 *
 * @param options.beside a folder of the same disk to write them in first; the one that the folder lies in when absent
 */
export async function writeAll(
  folder: string,
  files: Readonly<Record<string, FileContent>>,
  { mode = 0o644, beside }: { readonly mode?: number; readonly beside?: string | undefined } = {},
): Promise<void> {
  const target = resolve(folder);
  let staging: string | undefined;
  try {
    await mkdir(target, { recursive: true });
    staging = await mkdtemp(join(beside ?? dirname(target), `.${basename(target)}-`));
    for (const [name, content] of Object.entries(files))
      await writeFile(join(staging, name), chunked(content), { flush: true, mode });
    for (const name of Object.keys(files)) await rename(join(staging, name), join(target, name));
  } catch (error) {
    throw new CasetallyError('file-unwritable', `${target} cannot be written: ${reason(error)}.`, {
      cause: error,
    });
  } finally {
    if (staging !== undefined) await rm(staging, { recursive: true, force: true });
  }
}

/** Small pieces are joined: each chunk is a call of the system. */
function chunked(content: FileContent): string | Uint8Array | Iterable<string> {
  return typeof content === 'string' || content instanceof Uint8Array ? content : joined(content);
}

/** The same text in fewer pieces. */
export function* joined(pieces: Iterable<string>): Generator<string> {
  let chunk = '';
  for (const piece of pieces) {
    chunk += piece;
    if (chunk.length < CHUNK) continue;
    yield chunk;
    chunk = '';
  }
  if (chunk !== '') yield chunk;
}

const CHUNK = 64 * 1024;

/** @throws CasetallyError `usage` where there is something at the place already */
export async function mustBeNew(path: string): Promise<void> {
  const there = await lstat(path).catch(() => undefined);
  if (there) throw new CasetallyError('usage', `${path} is there already: name another file.`);
}

/**
 * Writes one file whole or not at all: beside its place first, and then moved there.
 * @param mode of the file; that of any new file when absent
 */
export async function writeOne(path: string, content: string | Uint8Array, mode?: number): Promise<void> {
  const target = resolve(path);
  const staging = join(dirname(target), `.${basename(target)}-${process.pid}`);
  try {
    await writeFile(staging, content, { flush: true, ...(mode !== undefined && { mode }) });
    await rename(staging, target);
  } catch (error) {
    await rm(staging, { force: true });
    throw new CasetallyError('file-unwritable', `${target} cannot be written: ${reason(error)}.`, {
      cause: error,
    });
  }
}
