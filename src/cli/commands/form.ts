import { fromResponse } from '../../intake/form/from-response.js';
import { questionnaire } from '../../intake/form/questionnaire.js';
import { toResponse } from '../../intake/form/to-response.js';
import { canonicalOf } from '../../pipeline/settings.js';
import type { Site } from '../../site/site.js';
import { softwareVersion } from '../about.js';
import { type ExitCode, exitCodes, exitFor } from '../exit.js';
import { readBytes, writeOne } from '../files.js';
import { jsonText, type Output } from '../output.js';
import { findingsText, ownLines } from '../terminal/findings.js';
import { openSite } from './open-site.js';

interface FormFlags {
  readonly out?: string;
  readonly site?: string;
  readonly json?: boolean;
}

/** A record is about a person: whoever else uses the machine has no business with it. */
const PRIVATE = 0o600;

const settings = (site: Site) => ({
  ...canonicalOf(site),
  version: softwareVersion,
  ...(site.timeZone !== undefined && { timeZone: site.timeZone }),
});

/** Prints the form of the record as a FHIR Questionnaire. */
export async function form({ out, site }: FormFlags, output: Output): Promise<ExitCode> {
  const opened = await openSite(site, output);
  if (!opened) return exitCodes.usage;
  const text = jsonText(questionnaire(settings(opened.site)));
  if (out === undefined) output.out(text);
  else await writeOne(out, text);
  return exitCodes.ok;
}

/** Turns a response to the form into a case record. While errors stand the record is written all the same, to be corrected. */
export async function recordFrom(file: string, flags: FormFlags, output: Output): Promise<ExitCode> {
  const opened = await openSite(flags.site, output);
  if (!opened) return exitCodes.usage;
  const bytes = await readBytes(file);
  const { record, findings, leftOut } = fromResponse(bytes, settings(opened.site));
  const { out, json } = flags;
  if (record !== undefined && out !== undefined) await writeOne(out, record, PRIVATE);
  if (json) {
    const where = record === undefined ? {} : out === undefined ? { record } : { out };
    output.out(jsonText({ file, ...where, findings, leftOut }));
  } else {
    output.err(findingsText(file, findings, output, ownLines(output, bytes)));
    if (record !== undefined && out === undefined) output.out(record);
  }
  return record === undefined && findings.some(({ severity }) => severity === 'fatal')
    ? exitCodes.usage
    : exitFor(findings);
}

/** Turns a case record into a response to the form. @param authored when it is made */
export async function responseOf(
  file: string,
  flags: FormFlags,
  output: Output,
  authored: string = new Date().toISOString(),
): Promise<ExitCode> {
  const opened = await openSite(flags.site, output);
  if (!opened) return exitCodes.usage;
  const bytes = await readBytes(file);
  const { response, findings } = toResponse(bytes, { ...settings(opened.site), authored });
  output.err(findingsText(file, findings, output, ownLines(output, bytes)));
  if (!response)
    return findings.some(({ severity }) => severity === 'fatal') ? exitCodes.usage : exitFor(findings);
  const text = jsonText(response);
  if (flags.out === undefined) output.out(text);
  else await writeOne(flags.out, text, PRIVATE);
  return exitFor(findings);
}
