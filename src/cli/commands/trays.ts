import { caseTrays, type PlacedRow } from '../../pipeline/case-trays.js';
import { trays as allTrays } from '../../trays/trays.js';
import { type ExitCode, exitCodes, exitFor } from '../exit.js';
import { readBytes } from '../files.js';
import { jsonText, type Output } from '../output.js';
import { findingsText } from '../terminal/findings.js';
import { shown } from '../terminal/shown.js';
import { openSite } from './open-site.js';

interface TraysFlags {
  readonly site?: string;
  readonly json?: boolean;
}

/** Prints where each device of a case is, and what can be done with it. */
export async function trays(file: string, flags: TraysFlags, output: Output): Promise<ExitCode> {
  const site = await openSite(flags.site, output);
  if (!site) return exitCodes.usage;
  const now = new Date().toISOString();
  const found = caseTrays(await readBytes(file), site.site, now, output.language);
  if (!('placed' in found)) {
    output.err(findingsText(file, found.findings, output));
    return exitCodes.usage;
  }
  if (flags.json) output.out(jsonText(found));
  else {
    output.out(allTrays.flatMap(tray => trayText(tray, found.placed)).join('\n'));
    if (found.findings.length > 0) output.err(findingsText(file, found.findings, output));
  }
  return exitFor(found.findings);
}

function trayText(tray: string, placed: readonly PlacedRow[]): readonly string[] {
  const here = placed.filter(one => one.tray === tray);
  if (here.length === 0) return [];
  return [`${tray[0]?.toUpperCase()}${tray.slice(1)}`, ...here.map(rowText), ''];
}

function rowText({ device, part, name, count, offers }: PlacedRow): string {
  const acts = [...new Set(offers.map(one => one.do))];
  const key = part === undefined ? device : `${device}, ${part}`;
  return [
    `  ${shown(name)}${count > 1 ? ` ×${count}` : ''}  (${key})`,
    ...(acts.length > 0 ? [`      ${acts.join(', ')}`] : []),
  ].join('\n');
}
