import { type Turnover, turnovers } from '../../clinical/turnover.js';
import { sortFindings } from '../../findings/finding.js';
import { byHarm } from '../../findings/harm.js';
import { calculationRows, checkedRows, type TallyRow, tallyRows } from '../../pipeline/check.js';
import { placed } from '../../record/parse.js';
import type { CaseRecord } from '../../record/schema/record.js';
import { type ExitCode, exitCodes } from '../exit.js';
import { countLine, findingLines, jsonText, type Output, table } from '../output.js';
import { type CaseFile, exitOf, openCase, openSite, picturesOf } from './open-case.js';

interface CheckFlags {
  readonly site?: string;
  readonly json?: boolean;
}

/** Reads cases and says everything that was found; the exit code is that of the worst case. */
export async function check(files: readonly string[], flags: CheckFlags, output: Output): Promise<ExitCode> {
  const site = await openSite(flags.site, output);
  if (!site) return exitCodes.usage;
  const results: { id: string | undefined; result: object }[] = [];
  const records: CaseRecord[] = [];
  let worst: ExitCode = exitCodes.ok;
  for (const file of files) {
    const opened = await withPictures(await openCase(file, site));
    const code = exitOf(opened);
    if (code > worst) worst = code;
    if (opened.record) records.push(opened.record);
    if (flags.json) results.push({ id: opened.record?.case.id, result: resultOf(opened, files.length > 1) });
    else print(opened, output);
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
  output.out('\nRoom turnover, from the end of one case to the start of the next\n');
  output.out(
    table([
      ['room', 'after', 'before', 'time'],
      ...gaps.map(gap => [
        gap.room,
        gap.before,
        gap.after,
        gap.minutes === undefined ? `not assessed: ${gap.notAssessed}` : `${gap.minutes} min`,
      ]),
    ]),
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
  const { file, findings, assessment } = opened;
  output.out(findingLines(byHarm(findings), file, output.color));
  const rows = tallyRows(opened);
  if (rows.length > 0) output.out(`\nDevice tally\n${tallyTable(rows)}`);
  if (assessment && assessment.calculations.length > 0) {
    output.out('\nWorked out, for a licensed reader to confirm\n');
    output.out(
      table([
        ['what', 'result', 'from', 'source'],
        ...calculationRows(opened).map(c => [
          c.what,
          c.result?.text ?? `not assessed: ${c.notAssessed}`,
          c.inputs.map(i => `${i.name} ${i.value}`).join('; '),
          c.basis,
        ]),
      ]),
    );
  }
  if (assessment && assessment.notChecked.length > 0)
    output.out(
      `\nSizes not checked\n${assessment.notChecked.map(n => `  ${n.what}: ${n.because}\n`).join('')}`,
    );
  output.out(`\n${file}: ${countLine(findings)}\n`);
}

/** The tally for people: device, state, why. */
export function tallyTable(rows: readonly TallyRow[]): string {
  return table([
    ['device', 'state', 'why'],
    ...rows.map(row => [
      `${row.part ? '  ' : ''}${row.count > 1 ? `${row.count} x ` : ''}${row.name}`,
      row.state,
      row.because,
    ]),
  ]);
}
