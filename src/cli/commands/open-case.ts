import { createReadStream } from 'node:fs';
import { dirname, extname, resolve } from 'node:path';
import { readCatalogue } from '../../devices/catalogue/load.js';
import type { CatalogueRow } from '../../devices/catalogue/row.js';
import { normalDi } from '../../devices/catalogue/row.js';
import { CasetallyError } from '../../findings/errors.js';
import { type Finding, finding, sortFindings, stops } from '../../findings/finding.js';
import { assessParsed, type CheckedCase, checkCase } from '../../pipeline/check.js';
import { readPictures } from '../../pipeline/pictures/read.js';
import type { TemplateSettings } from '../../pipeline/tools.js';
import type { ReadPictures } from '../../report/pictures/stored.js';
import type { Site } from '../../site/site.js';
import { type ExitCode, exitCodes, exitFor } from '../exit.js';
import { readBytes, readSite, reason } from '../files.js';
import { findingLines, type Output } from '../output.js';

/** A case file that was opened under a site. */
export interface OpenedCase extends CheckedCase {
  readonly file: string;
  readonly bytes: Uint8Array;
}

/** The site of a command, with its folder; a faulty configuration ends the command. */
export interface OpenedSite {
  readonly site: Site;
  readonly given: boolean;
  readonly folder: string;
}

/** Reads the site configuration; says every fault of it and gives undefined when it cannot be used. */
export async function openSite(path: string | undefined, output: Output): Promise<OpenedSite | undefined> {
  const { site, findings, given, folder } = await readSite(path);
  if (findings.some(stops)) {
    output.err(findingLines(findings, path ?? '', output.color));
    return undefined;
  }
  return { site, given, folder };
}

/** Reads and assesses one case file; devices found in the site's catalogue are filled in from it. */
export async function openCase(file: string, opened: OpenedSite): Promise<OpenedCase> {
  return openBytes(file, await readBytes(file), opened);
}

/** The same for a case that came otherwise than in a file; `file` is what to call it. */
export async function openBytes(file: string, bytes: Uint8Array, opened: OpenedSite): Promise<OpenedCase> {
  const first = checkCase(bytes, opened.site);
  const { catalogue } = opened.site.devices;
  const wanted = [...(first.assessment?.devices.values() ?? [])].flatMap(device =>
    device.di === undefined ? [] : [device.di],
  );
  if (catalogue === undefined || wanted.length === 0) return { ...first, file, bytes };
  const { rows, findings } = await lookUp(resolve(opened.folder, catalogue), wanted);
  const second = assessParsed(first.parsed, opened.site, rows);
  return { ...second, findings: sortFindings([...second.findings, ...findings]), file, bytes };
}

async function lookUp(
  path: string,
  wanted: readonly string[],
): Promise<{ rows: ReadonlyMap<string, CatalogueRow>; findings: readonly Finding[] }> {
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

/** The pictures that a case file names, from the folder it lies in. */
export async function picturesOf({ record, file }: OpenedCase): Promise<ReadPictures> {
  return record ? readPictures(record, dirname(resolve(file))) : { pictures: new Map(), findings: [] };
}

/** The folder of the site's own report templates; read from disk only, beside the configuration that names it. */
export function templatesOf({ site, folder }: OpenedSite): TemplateSettings {
  const { templates } = site.report;
  return templates === undefined ? {} : { folder: resolve(folder, templates) };
}

/** A note that belongs in every result made without a site configuration. */
export function siteNote({ given }: OpenedSite): Finding[] {
  return given ? [] : [finding('site.not-configured', '', {})];
}

/** 2 for a file that is no case at all, else 1 or 0 by its findings. */
export function exitOf(checked: CheckedCase): ExitCode {
  return checked.unreadable ? exitCodes.usage : exitFor(checked.findings);
}
