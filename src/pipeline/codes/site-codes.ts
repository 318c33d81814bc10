import { readFile } from 'node:fs/promises';
import { resolve } from 'node:path';
import type { LocalCode } from '../../fhir/options.js';
import { CasetallyError, reason } from '../../findings/errors.js';
import type { Finding } from '../../findings/finding.js';
import type { OpenedSite } from '../open-case.js';

/** Reads the site's list of codes from disk, if it names one, and adds it to the codes of the configuration itself. */
export async function withSiteCodes(
  opened: OpenedSite,
): Promise<{ readonly opened: OpenedSite; readonly file?: string; readonly findings: readonly Finding[] }> {
  const { site, folder } = opened;
  if (site.coding.codes === undefined) return { opened, findings: [] };
  const file = resolve(folder, site.coding.codes);
  const { readCodes } = await import('./read-codes.js');
  const { codes, findings } = readCodes(await bytesOf(file));
  const local = { ...site.coding.local, ...added(site.coding.local, codes) };
  return { opened: { ...opened, site: { ...site, coding: { ...site.coding, local } } }, file, findings };
}

type Codes = Readonly<Record<string, readonly LocalCode[]>>;

/** The codes of a list, each beside those that the configuration has for the same text. */
function added(own: Codes, listed: Codes): Record<string, LocalCode[]> {
  return Object.fromEntries(
    Object.entries(listed).map(([text, codes]) => [
      text,
      [...(Object.hasOwn(own, text) ? (own[text] ?? []) : []), ...codes],
    ]),
  );
}

async function bytesOf(path: string): Promise<Uint8Array> {
  try {
    return await readFile(path);
  } catch (error) {
    throw new CasetallyError(
      'file-unreadable',
      `the list of codes ${path} cannot be read: ${reason(error)}.`,
      {
        cause: error,
      },
    );
  }
}
