import { type Turnover, turnovers } from '../../clinical/turnover.js';
import { sortFindings, stops } from '../../findings/finding.js';
import { lexicon } from '../../findings/say.js';
import { calculationRows, checkedRows, type TallyRow, tallyRows } from '../../pipeline/check.js';
import { placed } from '../../record/parse.js';
import type { CaseRecord } from '../../record/schema/record.js';
import { type ExitCode, exitCodes } from '../exit.js';
import { jsonText, type Output } from '../output.js';
import { filled, table } from '../terminal/fill.js';
import { findingsText } from '../terminal/findings.js';
import { type CaseFile, exitOf, openCase, picturesOf } from './open-case.js';
import { openSite } from './open-site.js';

interface CheckFlags {
  readonly site?: string;
  readonly json?: boolean;
}

/** Reads cases and says everything that was found; the exit code is that of the worst case. */
export async function check(files: readonly string[], flags: CheckFlags, given: Output): Promise<ExitCode> {
  const site = await openSite(flags.site, given);
  if (!site) return exitCodes.usage;
  // In the language that was asked for, else in that of the site.
  const output: Output = { language: site.site.language, ...given };
  const results: { id: string | undefined; result: object }[] = [];
  const records: CaseRecord[] = [];
  let worst: ExitCode = exitCodes.ok;
  for (const file of files) {
    const opened = await withPictures(await openCase(file, site, output));
    const code = exitOf(opened);
    if (code > worst) worst = code;
    if (opened.record) records.push(opened.record);
    if (flags.json) results.push({ id: opened.record?.case.id, result: resultOf(opened, files.length > 1) });
    else {
      if (file !== files[0]) output.out('\n');
      print(opened, output);
    }
  }
  const gaps = turnovers(records);
  if (!flags.json) printTurnovers(gaps, output);
  else if (files.length === 1) output.out(jsonText(results[0]?.result));
  else
    output.out(
      jsonText(
        results.map(({ id, result }) => {
          const turnover = gaps.find(gap => gap.after === id);
          return { ...result, ...(turnover && { turnover }) };
        }),
      ),
    );
  return worst;
}

/** Of several cases: how long a room stood between two that followed each other. */
function printTurnovers(gaps: readonly Turnover[], output: Output): void {
  if (gaps.length === 0) return;
  output.out(
    `\n${filled('Room turnover, from the end of one case to the start of the next', output.columns)}`,
  );
  output.out(
    table(
      [
        ['room', 'after', 'before', 'time'],
        ...gaps.map(gap => [
          gap.room,
          gap.before,
          gap.after,
          gap.minutes === undefined ? `not assessed: ${gap.notAssessed}` : `${gap.minutes} min`,
        ]),
      ],
      output.columns,
    ),
  );
}

/** Says as well which pictures that the case names cannot be shown. */
async function withPictures(opened: CaseFile): Promise<CaseFile> {
  const { findings } = await picturesOf(opened);
  return {
    ...opened,
    findings: sortFindings([...opened.findings, ...placed(findings, opened.parsed.locate)]),
  };
}

/** The object of the contract; `file` is added when several cases were named. */
function resultOf(opened: CaseFile, several: boolean): object {
  return { ...(several && { file: opened.file }), ...checkedRows(opened) };
}

function print(opened: CaseFile, output: Output): void {
  const { file, findings, assessment, bytes } = opened;
  const { say } = lexicon(output.language ?? 'en-GB');
  const stopped = findings.some(stops);
  const verdict = say(`terminal.${opened.unreadable ? 'unreadable' : stopped ? 'stopped' : 'free'}`);
  // While errors stand, they are what is to be read: tally and values rest on a record that is wrong.
  const rest = stopped && assessment && output.detail === 'screen' ? say('terminal.rest') : undefined;
  output.out(findingsText(file, findings, output, { verdict, source: bytes, ...(rest && { rest }) }));
  if (!rest) printWorkedOut(opened, output);
}

function printWorkedOut(opened: CaseFile, output: Output): void {
  const { language, columns } = output;
  const { say } = lexicon(language ?? 'en-GB');
  const { assessment } = opened;
  const rows = tallyRows(opened, language);
  if (rows.length > 0) output.out(`\n${say('terminal.tally')}\n${tallyTable(rows, output)}`);
  const sources = output.detail !== 'screen';
  if (assessment && assessment.calculations.length > 0) {
    output.out(`\n${filled(say('terminal.worked-out'), columns)}`);
    const heads = ['what', 'result', 'from', ...(sources ? ['source' as const] : [])] as const;
    output.out(
      table(
        [
          heads.map(head => say(`terminal.worked-out.${head}`)),
          ...calculationRows(opened, language).map(c => [
            c.what,
            c.result?.text ?? say('terminal.not-assessed', { why: c.notAssessed ?? '' }),
            c.inputs.map(i => `${i.name} ${i.value}`).join('; '),
            ...(sources ? [c.basis] : []),
          ]),
        ],
        columns,
      ),
    );
  }
  if (assessment && assessment.notChecked.length > 0) {
    const lines = assessment.notChecked.map(n =>
      filled(say('unsized.line', { what: n.what, because: n.because }), columns, '  ', '    '),
    );
    output.out(`\n${say('terminal.sizes')}\n${lines.join('')}`);
  }
}

/** The tally for people: device, state, why. */
function tallyTable(rows: readonly TallyRow[], { columns, language }: Output): string {
  const { say, text } = lexicon(language ?? 'en-GB');
  return table(
    [
      [say('terminal.tally.device'), say('terminal.tally.state'), say('terminal.tally.why')],
      ...rows.map(row => [
        `${row.part ? '  ' : ''}${row.count > 1 ? `${row.count} x ` : ''}${row.name}`,
        text({ term: 'state', value: row.state }),
        row.because,
      ]),
    ],
    columns,
  );
}
