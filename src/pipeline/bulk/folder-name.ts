import { createHash } from 'node:crypto';

/** Names that may be folders as they are, on every system; a dot is in none of them. */
const PLAIN = /^[a-z0-9][a-z0-9_-]{0,79}$/;
/** Windows takes these for devices. */
const DEVICE = /^(?:con|prn|aux|nul|com\d|lpt\d)$/i;
/** Of a name that is not plain, what is kept for people to know it by. */
const KEPT = 60;

const short = (text: string) => createHash('sha256').update(text, 'utf8').digest('hex').slice(0, 16);

/**
 * The folder for the outputs of a record, within one folder: `a.yaml` goes to `a`, any other name to what can be kept of
 * it and a digest. No two names give the same folder, also where upper and lower case are one, and none leads elsewhere.
 *
 * @param name of the file, from the folder that it was found in, with `/` between folders
 */
export function folderName(name: string): string {
  const stem = /^(.+)\.yaml$/.exec(name)?.[1] ?? '';
  if (PLAIN.test(stem) && !DEVICE.test(stem)) return stem;
  return `${kept(name.replace(/\.(?:ya?ml|json)$/i, ''))}.${short(name)}`;
}

/** The same for a line of a file: by its bytes, since its number changes with the lines before it. */
export function lineFolderName(file: string, digest: string): string {
  return `${kept(file.replace(/\.(?:ndjson|jsonl)$/i, ''))}.${digest.slice(0, 16)}`;
}

function kept(name: string): string {
  const safe = name
    .replaceAll(/[^A-Za-z0-9_-]+/g, '-')
    .replace(/^-+/, '')
    .slice(0, KEPT);
  return safe === '' || DEVICE.test(safe) ? 'case' : safe;
}
