import { readdir, readFile, stat } from 'node:fs/promises';
import { basename, extname, join, resolve } from 'node:path';
import { CasetallyError, reason } from '../../findings/errors.js';
import type { Finding } from '../../findings/finding.js';
import { type Kit, readKit } from '../../intake/kits/read.js';
import { MAX_BYTES } from '../../record/read.js';
import type { OpenedSite } from '../open-case.js';

/** A file of a kit, as it was read. */
export interface KitFile {
  readonly file: string;
  readonly kit?: Kit;
  readonly findings: readonly Finding[];
}

const KIT_FILE = /\.(?:ya?ml|json)$/i;

/** Reads one kit from disk. */
export async function kitFile(file: string): Promise<KitFile> {
  try {
    if ((await stat(file)).size > MAX_BYTES)
      throw new CasetallyError('file-unreadable', `${file} is too large for a kit.`);
    return { file, ...readKit(await readFile(file)) };
  } catch (error) {
    if (error instanceof CasetallyError) throw error;
    throw new CasetallyError('file-unreadable', `${file} cannot be read: ${reason(error)}.`, {
      cause: error,
    });
  }
}

/**
 * Kits of the site by the name of their file (without its ending) or their own, in any case of letters.
 * @throws CasetallyError `usage` where the site has no folder of kits, or none or several of a name
 */
export async function kitsNamed(names: readonly string[], site: OpenedSite): Promise<KitFile[]> {
  if (names.length === 0) return [];
  const { kits } = site.site.intake;
  if (kits === undefined)
    throw new CasetallyError(
      'usage',
      'The site configuration names no folder of kits: set intake.kits, or name the file of a kit.',
    );
  const files = await allKits(resolve(site.folder, kits));
  return names.map(name => {
    const wanted = name.trim().toLowerCase();
    const found = files.filter(
      ({ file, kit }) =>
        basename(file, extname(file)).toLowerCase() === wanted || kit?.name.toLowerCase() === wanted,
    );
    const [one, second] = found;
    if (one && !second) return one;
    const known = files.map(({ file }) => basename(file, extname(file))).join(', ') || 'none';
    throw new CasetallyError(
      'usage',
      second
        ? `Several kits are called '${name.slice(0, 60)}': name one by its file (${known}).`
        : `There is no kit '${name.slice(0, 60)}': the site has ${known}.`,
    );
  });
}

/** What a kit of the site is called: its own name, and that of its file without its ending. */
export interface KitName {
  readonly name: string;
  readonly file: string;
}

/** Names of the kits that the site has and that can be read; none where it names no folder. */
export async function kitNames(site: OpenedSite): Promise<KitName[]> {
  const { kits } = site.site.intake;
  if (kits === undefined) return [];
  const files = await allKits(resolve(site.folder, kits));
  return files.flatMap(({ file, kit }) =>
    kit ? [{ name: kit.name, file: basename(file, extname(file)) }] : [],
  );
}

async function allKits(folder: string): Promise<KitFile[]> {
  let names: string[];
  try {
    names = await readdir(folder);
  } catch (error) {
    throw new CasetallyError(
      'file-unreadable',
      `The folder of kits ${folder} cannot be read: ${reason(error)}.`,
      { cause: error },
    );
  }
  const files = names.filter(name => KIT_FILE.test(name)).sort();
  return Promise.all(files.map(name => kitFile(join(folder, name))));
}
