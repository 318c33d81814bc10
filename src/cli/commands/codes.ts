import { readdir, stat } from 'node:fs/promises';
import { join } from 'node:path';
import { CasetallyError, reason } from '../../findings/errors.js';
import type { Finding } from '../../findings/finding.js';
import { checkOwnCodes, proposeFromMaps } from '../../pipeline/codes/ask.js';
import { NameCount, type NamesOfCases, type OpenName } from '../../pipeline/codes/open-names.js';
import { openBytes } from '../../pipeline/open-case.js';
import { softwareVersion } from '../about.js';
import { type ExitCode, exitCodes } from '../exit.js';
import { readBytes } from '../files.js';
import { counted, jsonText, type Output } from '../output.js';
import { table } from '../terminal/fill.js';
import { findingsText } from '../terminal/findings.js';
import { openSite } from './open-case.js';
import { openOneOf } from './open-destination.js';

interface CodesFlags {
  readonly site?: string;
  readonly server?: string;
  readonly names?: string;
  readonly failIfAny?: boolean;
  readonly csv?: boolean;
  readonly json?: boolean;
}

/** Says what cases name without a code; codes are proposed from the site's own list and the server's maps alone. */
export async function checkCodes(
  places: readonly string[],
  flags: CodesFlags,
  output: Output,
): Promise<ExitCode> {
  if (flags.names !== undefined && flags.server === undefined)
    throw new CasetallyError('usage', '--names says how a terminology server knows the names: add --server.');
  const opened = await openSite(flags.site, output);
  if (!opened) return exitCodes.usage;
  const server =
    flags.server === undefined ? undefined : await openOneOf(opened, { ...flags, to: flags.server }, output);
  if (flags.server !== undefined && !server) return exitCodes.usage;
  const count = new NameCount(opened.site, softwareVersion);
  const { unread, passedOver } = await readAll(places, async bytes => {
    const checked = await openBytes(bytes, opened, Date.now());
    count.add(checked);
    return checked.record !== undefined && checked.assessment !== undefined;
  });
  const names = count.result();
  const reader = server?.session.reader;
  const findings: Finding[] = reader ? await checkOwnCodes(opened.site.coding.local, reader) : [];
  const mapped =
    reader && flags.names !== undefined
      ? await proposeFromMaps(names.open, flags.names, reader)
      : { open: names.open, findings: [] };
  const all = [...findings, ...mapped.findings];
  const result = { ...names, open: mapped.open };
  if (flags.json) output.out(jsonText({ ...result, unread, passedOver, findings: all }));
  else {
    output.err(findingsText(flags.server ?? '', all, output));
    for (const { file, problem } of unread) output.err(`${file}  not counted: ${problem}\n`);
    output.out(
      flags.csv ? toFillIn(result.open) : inWords(result, unread.length, passedOver, output.columns),
    );
  }
  if (unread.length > 0) return exitCodes.usage;
  return flags.failIfAny && result.open.length > 0 ? exitCodes.findings : exitCodes.ok;
}

interface ReadFiles {
  readonly unread: readonly { readonly file: string; readonly problem: string }[];
  /** Files of folders that are no case at all. */
  readonly passedOver: number;
}

/** Reads each file that is named, and each case in the folders that are named; `use` says whether it is one. */
async function readAll(
  places: readonly string[],
  use: (bytes: Uint8Array) => Promise<boolean>,
): Promise<ReadFiles> {
  const unread: { file: string; problem: string }[] = [];
  let passedOver = 0;
  for (const place of places)
    for (const file of await filesAt(place)) {
      try {
        const bytes = await readBytes(file);
        if (file !== place && !looksLikeCase(bytes)) passedOver += 1;
        else if (!(await use(bytes)))
          unread.push({ file, problem: `it has errors, see casetally check ${file}` });
      } catch (error) {
        if (!(error instanceof CasetallyError)) throw error;
        unread.push({ file, problem: error.message });
      }
    }
  return { unread, passedOver };
}

/** The first field of a case says its format; what lies beside cases (settings, outputs) does not have it. */
const looksLikeCase = (bytes: Uint8Array): boolean =>
  /^[\s{]*(?:#[^\n]*\n\s*)*["']?casetally["']?\s*:/m.test(Buffer.from(bytes).toString('utf8'));

async function filesAt(place: string): Promise<readonly string[]> {
  try {
    if (!(await stat(place)).isDirectory()) return [place];
    const names = await readdir(place, { recursive: true });
    return names
      .filter(name => /\.(?:ya?ml|json)$/i.test(name))
      .sort()
      .map(name => join(place, name));
  } catch (error) {
    throw new CasetallyError('file-unreadable', `${place} cannot be read: ${reason(error)}.`, {
      cause: error,
    });
  }
}

/** What was found in a line, then each name. */
function inWords(
  { cases, names, open }: NamesOfCases,
  unread: number,
  passedOver: number,
  columns: number | undefined,
): string {
  const rows = open.map(({ what, text, times, cases: inCases, proposed }) => [
    what,
    text,
    `${times}`,
    `${inCases}`,
    proposed.map(proposal).join('; '),
  ]);
  const list =
    rows.length > 0 ? table([['what', 'text', 'times', 'cases', 'proposed'], ...rows], columns) : '';
  const rest = [
    ...(unread > 0 ? [`${counted(unread, 'file was', 'files were')} not counted`] : []),
    ...(passedOver > 0 ? [`${counted(passedOver, 'file', 'files')} of other kinds passed over`] : []),
  ];
  const said = `${open.length} of ${counted(names, 'name', 'names')} in ${counted(cases, 'case', 'cases')} without a code`;
  return `${[said, ...rest].join('; ')}\n${list}`;
}

const proposal = ({ system, code, display, from }: OpenName['proposed'][number]) =>
  `${system}|${code}${display === undefined ? '' : ` ${display}`} (${from})`;

/** The open names as a list of codes: codes stay empty, since a person says whether what is proposed is meant. */
function toFillIn(open: readonly OpenName[]): string {
  const rows = open.map(({ what, text, times, cases, proposed }) => [
    what,
    text,
    '',
    '',
    '',
    `${times}`,
    `${cases}`,
    proposed.map(proposal).join('; '),
  ]);
  return [['what', 'text', 'system', 'code', 'display', 'times', 'cases', 'proposed'], ...rows]
    .map(row => `${row.map(cell).join(',')}\n`)
    .join('');
}

/** A cell of a CSV; one that a spreadsheet would reckon gets an apostrophe, which the list of codes is read without. */
function cell(text: string): string {
  const safe = /^[=+\-@]/.test(text) ? `'${text}` : text;
  return /[",;\t\r\n]/.test(safe) ? `"${safe.replaceAll('"', '""')}"` : safe;
}
