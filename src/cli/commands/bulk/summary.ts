import type { BulkTally } from '../../../pipeline/bulk/tally.js';
import { type ExitCode, exitCodes } from '../../exit.js';
import { counted, jsonText, type Output } from '../../output.js';
import { filled, table } from '../../terminal/fill.js';

/** What there is to say at the end. */
export interface Ended {
  readonly tally: BulkTally;
  /** `stored`, `written to out`, `taken into the register`. */
  readonly verb: string;
  readonly place: string;
  readonly setAsideFile: string;
  readonly journal: string;
  readonly stopped: boolean;
  readonly broken: string | undefined;
  readonly seconds: number;
}

/** So many rows go on a screen. */
const MOST_ROWS = 20;

/** Prints what came of all cases: counts, and the codes of findings. */
export function printSummary(ended: Ended, { json }: { readonly json?: boolean }, output: Output): void {
  const { tally, verb, place, setAsideFile, journal, stopped, broken, seconds } = ended;
  const rows = tally.rows();
  if (json) {
    const { done, before, repeated, setAside, unreadable, passedOver } = tally;
    output.out(
      jsonText({
        ...{ place, done, before, repeated, setAside, unreadable, passedOver, stopped },
        ...(broken !== undefined && { broken }),
        ...{ codes: rows, ...(setAside > 0 && { setAsideFile }), journal, seconds },
      }),
    );
    return;
  }
  const say = (text: string) => output.out(filled(text, output.columns));
  const others = [
    ...(tally.before > 0 ? [`${tally.before} done by an earlier run`] : []),
    ...(tally.repeated > 0 ? [`${tally.repeated} the same as another one`] : []),
    ...(tally.setAside > 0 ? [`${tally.setAside} set aside`] : []),
    ...(tally.passedOver > 0
      ? [`${counted(tally.passedOver, 'file', 'files')} of other kinds passed over`]
      : []),
  ];
  say(`${[`${counted(tally.done, 'case', 'cases')} ${verb}`, ...others].join('; ')}.`);
  const shown = output.detail === 'all' ? rows : rows.slice(0, MOST_ROWS);
  if (shown.length > 0)
    output.out(
      table(
        [
          ['finding', 'severity', 'cases', 'set aside'],
          ...shown.map(row => [row.code, row.severity, `${row.cases}`, `${row.setAside}`]),
        ],
        output.columns,
      ),
    );
  if (shown.length < rows.length)
    say(`${counted(rows.length - shown.length, 'code', 'codes')} more with --verbose.`);
  if (tally.setAside > 0)
    say(
      `What was set aside, with all findings: ${setAsideFile} (may hold patient data). Mend the records and give the same command again: what is done is not done twice.`,
    );
  if (stopped)
    say('Stopped before the end; what was begun is finished. The same command goes on where this one ended.');
}

/** 2 where something could not be read, 1 where it was set aside or left, 0 where all is done. */
export function exitOfBulk({ tally, stopped, broken }: Ended): ExitCode {
  if (broken !== undefined || tally.unreadable > 0) return exitCodes.usage;
  return tally.setAside > 0 || stopped ? exitCodes.findings : exitCodes.ok;
}
