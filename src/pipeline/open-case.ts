import { createReadStream } from 'node:fs';
import { extname, resolve } from 'node:path';
import { type CatalogueRow, normalDi } from '../devices/catalogue/row.js';
import { CasetallyError, reason } from '../findings/errors.js';
import { type Finding, sortFindings } from '../findings/finding.js';
import type { Site } from '../site/site.js';
import { assessParsed, type CheckedCase, checkCase } from './check.js';
import type { TemplateSettings } from './tools.js';

/** A site configuration in use. */
export interface OpenedSite {
  readonly site: Site;
  /** False for the placeholder that stands where no configuration was given. */
  readonly given: boolean;
  /** The folder that its relative paths start from. */
  readonly folder: string;
}

/** A case that was read and assessed under a site, with the bytes that it came as. */
export interface OpenedCase extends CheckedCase {
  readonly bytes: Uint8Array;
}

/**
 * Reads and assesses a case; devices found in the site's catalogue are filled in from it.
 * @param now milliseconds since 1970, by the caller's clock; see `checkCase`
 */
export async function openBytes(
  bytes: Uint8Array,
  { site, folder }: OpenedSite,
  now?: number,
): Promise<OpenedCase> {
  const first = checkCase(bytes, site, undefined, now);
  const wanted = [...(first.assessment?.devices.values() ?? [])].flatMap(({ di }) => di ?? []);
  const { rows, findings } = await catalogued({ site, folder }, wanted);
  if (rows.size === 0 && findings.length === 0) return { ...first, bytes };
  const second = assessParsed(first.parsed, site, rows, now);
  return { ...second, findings: sortFindings([...second.findings, ...findings]), bytes };
}

/** What the catalogue of a site has, and what is wrong with it. */
interface Catalogued {
  readonly rows: ReadonlyMap<string, CatalogueRow>;
  readonly findings: readonly Finding[];
}

/** What the catalogue of the site knows of some device identifiers; nothing where the site has none. */
export async function catalogued(
  { site, folder }: Pick<OpenedSite, 'site' | 'folder'>,
  wanted: readonly string[],
): Promise<Catalogued> {
  const { catalogue } = site.devices;
  if (catalogue === undefined || wanted.length === 0) return { rows: new Map(), findings: [] };
  return lookUp(resolve(folder, catalogue), wanted);
}

async function lookUp(path: string, wanted: readonly string[]): Promise<Catalogued> {
  // Few sites have one, and what reads it takes a while to load.
  const { readCatalogue } = await import('../devices/catalogue/load.js');
  const format = extname(path).toLowerCase() === '.csv' ? 'csv' : 'json';
  const source = createReadStream(path);
  try {
    return await readCatalogue(source, { format, wanted: wanted.map(di => normalDi(di) ?? di), path });
  } catch (error) {
    if (error instanceof CasetallyError) throw error;
    throw new CasetallyError(
      'file-unreadable',
      `the device catalogue ${path} cannot be read: ${reason(error)}.`,
      { cause: error },
    );
  } finally {
    source.destroy();
  }
}

/** The folder of the site's own report templates; read from disk only, beside the configuration that names it. */
export function templatesOf({ site, folder }: OpenedSite): TemplateSettings {
  const { templates } = site.report;
  return templates === undefined ? {} : { folder: resolve(folder, templates) };
}
