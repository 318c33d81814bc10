import { CasetallyError } from '../../findings/errors.js';
import type { Finding } from '../../findings/finding.js';
import { checkOwnCodes, proposeFromMaps } from '../../pipeline/codes/ask.js';
import { NameCount, type NamesOfCases, type OpenName } from '../../pipeline/codes/open-names.js';
import { openBytes } from '../../pipeline/open-case.js';
import { softwareVersion } from '../about.js';
import { type ExitCode, exitCodes } from '../exit.js';
import { counted, jsonText, type Output } from '../output.js';
import { csv } from '../terminal/csv.js';
import { table } from '../terminal/fill.js';
import { findingsText } from '../terminal/findings.js';
import { readCases } from './case-files.js';
import { openOneOf } from './open-destination.js';
import { openSite } from './open-site.js';

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
  const { unread, passedOver } = await readCases(places, async bytes => {
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

/**
 * The open names as a list of codes: codes stay empty, since a person says whether what is proposed is meant. The list is
 * read without the apostrophe that a cell may have.
 */
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
  return csv([['what', 'text', 'system', 'code', 'display', 'times', 'cases', 'proposed'], ...rows]);
}
