import { readFile, realpath, stat } from 'node:fs/promises';
import { basename, join, relative, sep } from 'node:path';
import { type Finding, finding } from '../../findings/finding.js';
import { type Message, message, type Param } from '../../findings/message.js';
import type { CaseRecord } from '../../record/schema/record.js';
import type { ReadPictures, StoredPicture } from '../../report/pictures/stored.js';
import { headerOf } from './header.js';

const MAX_PICTURES = 12;
const MAX_MEGABYTES = 20;
const MAX_MEGAPIXELS = 25;
/** Longer side of a picture in a report, in pixels: two stand side by side, 300 to the inch on paper. */
const LONGEST = 1000;
const MILLION = 1_000_000;

/**
 * Reads the pictures that a record names and makes them fit for the report: an edge. What cannot be read is a finding
 * and no reason to stop. The library that decodes them is loaded when the first one is named.
 * @param folder of the case file; nothing outside it is read
 */
export function readPictures(record: CaseRecord, folder: string): Promise<ReadPictures> {
  return each(record, async (file, path) => {
    const bytes = await bytesOf(folder, file, path);
    return bytes instanceof Uint8Array ? madeOf(bytes, file, path) : bytes;
  });
}

/**
 * The same of files that are in memory, by the names that the record gives them or the last parts of these; of others
 * nothing is said.
 */
export function picturesFrom(
  record: CaseRecord,
  files: ReadonlyMap<string, Uint8Array>,
): Promise<ReadPictures> {
  return each(record, async (file, path) => {
    const bytes = files.get(file) ?? files.get(basename(file));
    return bytes && madeOf(bytes, file, path);
  });
}

async function each(
  { images = [] }: CaseRecord,
  read: (file: string, path: string) => Promise<StoredPicture | Finding | undefined>,
): Promise<ReadPictures> {
  const pictures = new Map<string, StoredPicture>();
  const findings: Finding[] = [];
  let number = 0;
  for (const [index, { file }] of images.entries()) {
    if (file === undefined) continue;
    number += 1;
    const path = `images[${index}].file`;
    // One after the other: a decoded picture takes a hundred megabytes.
    const made =
      number > MAX_PICTURES
        ? finding('picture.too-many', path, { file, number: `${number}`, limit: `${MAX_PICTURES}` })
        : await read(file, path);
    if (made === undefined) continue;
    if ('jpeg' in made) pictures.set(`images[${index}]`, made);
    else findings.push(made);
  }
  return { pictures, findings };
}

const tooBig = (path: string, file: string, found: Param, limit: Param) =>
  finding('picture.too-big', path, { file, found, limit, longest: `${LONGEST}` });

async function bytesOf(folder: string, file: string, path: string): Promise<Uint8Array | Finding> {
  try {
    const at = await realpath(join(folder, file));
    if (!isInside(await realpath(folder), at)) return finding('picture.outside', path, { file });
    const info = await stat(at);
    // A pipe or a device would be waited for without end.
    if (!info.isFile()) return finding('picture.not-read', path, { file, why: message('picture.noFile') });
    return info.size > MAX_MEGABYTES * MILLION ? tooHeavy(path, file, info.size) : await readFile(at);
  } catch (error) {
    return finding('picture.not-read', path, { file, why: whyNot(error) });
  }
}

const tooHeavy = (path: string, file: string, bytes: number) =>
  tooBig(path, file, `${(bytes / MILLION).toFixed(1)} MB`, `${MAX_MEGABYTES} MB`);

async function madeOf(bytes: Uint8Array, file: string, path: string): Promise<StoredPicture | Finding> {
  if (bytes.byteLength > MAX_MEGABYTES * MILLION) return tooHeavy(path, file, bytes.byteLength);
  const header = headerOf(bytes);
  if (!header) return finding('picture.wrong-type', path, { file });
  const { width, height } = header;
  if (width * height > MAX_MEGAPIXELS * MILLION)
    return tooBig(
      path,
      file,
      message('picture.pixels', { width: `${width}`, height: `${height}` }),
      message('picture.megapixels', { n: `${MAX_MEGAPIXELS}` }),
    );
  const damaged = (why: Param) => finding('picture.damaged', path, { file, why });
  if (width === 0 || height === 0) return damaged(message('picture.noSize'));
  if (header.fault !== undefined) return damaged(header.fault);
  try {
    const { shrink } = await import('./shrink.js');
    return await shrink(bytes, { longest: LONGEST, megapixels: MAX_MEGAPIXELS, rgb: header.rgb === true });
  } catch (error) {
    return damaged(saidBy(error));
  }
}

function isInside(folder: string, file: string): boolean {
  const way = relative(folder, file);
  return way !== '..' && !way.startsWith(`..${sep}`) && join(folder, way) === file;
}

function whyNot(error: unknown): Param {
  const code = error instanceof Error && 'code' in error ? String(error.code) : '';
  const words: Readonly<Record<string, Message>> = {
    ENOENT: message('picture.notThere'),
    EACCES: message('picture.denied'),
    EPERM: message('picture.denied'),
    ENOTDIR: message('picture.noFolder'),
    ELOOP: message('picture.circle'),
  };
  return words[code] ?? (code || message('picture.unknown'));
}

/** What the decoder says, as the end of a sentence; a slip of its own says nothing to a reader. */
function saidBy(error: unknown): Param {
  if (!(error instanceof Error) || error instanceof TypeError || error instanceof RangeError)
    return message('picture.broken');
  return error.message.replace(/\s+/g, ' ').replace(/\.$/, '').slice(0, 120);
}
