import { basename, dirname } from 'node:path';
import { publishedPackage } from '../../pipeline/own-package.js';
import { type ExitCode, exitCodes } from '../exit.js';
import { writeAll } from '../files.js';
import type { Output } from '../output.js';
import { openSite } from './open-site.js';

/** Writes our FHIR package, under the address of the site where one is named. */
export async function writePackage(
  path: string,
  flags: { readonly site?: string },
  output: Output,
): Promise<ExitCode> {
  const opened = await openSite(flags.site, output);
  if (!opened) return exitCodes.usage;
  const bytes = publishedPackage(opened.site.fhir.canonical);
  await writeAll(dirname(path), { [basename(path)]: bytes });
  output.out(`${path}: casetally.profiles, ${(bytes.length / 1000).toFixed(0)} kB\n`);
  return exitCodes.ok;
}
