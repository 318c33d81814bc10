import { CasetallyError } from '../../../findings/errors.js';
import { levelOfSite } from '../../../pipeline/register/levels.js';
import { type Measures, measures as measured } from '../../../register/measures/measures.js';
import { CAUTION } from '../../about.js';
import { type ExitCode, exitCodes } from '../../exit.js';
import { counted, jsonText, type Output } from '../../output.js';
import { csv } from '../../terminal/csv.js';
import { filled, table } from '../../terminal/fill.js';
import { dayOf } from './lists.js';
import { linesOf, tablesOf } from './measure-tables.js';
import { type RegisterFlags, withRegister } from './open.js';

interface MeasureFlags extends RegisterFlags {
  readonly from: string;
  readonly to: string;
  readonly k: string;
  readonly within: string;
}

/** Figures of the site over a period: how long devices stay, retrieval, complications, what was overdue, dose. */
export function measures(flags: MeasureFlags, output: Output): Promise<ExitCode> {
  const [from, to] = [dayOf(flags.from), dayOf(flags.to)];
  if (from > to) throw new CasetallyError('usage', `the period ends (${to}) before it begins (${from}).`);
  if (to > dayOf(undefined))
    throw new CasetallyError('usage', `${to} is still to come: nothing can be followed until then.`);
  const k = smallestOf(flags.k);
  const days = daysOf(flags.within);
  return withRegister(flags, output, async ({ register, site }) => {
    output.progress?.('Reading the cases of the period');
    const rows = await register.measureRows(from, to);
    const made = measured(rows, { from, to, k, days, levelOf: levelOfSite(site.site) });
    if (flags.json) output.out(jsonText({ from, to, k, ...hiddenAsNull(made) }));
    else if (flags.csv) output.out(csv(linesOf(made)));
    else output.out(textOf(made, { from, to, k }, output.columns));
    return exitCodes.ok;
  });
}

/** A count that is not shown is told, not left out. */
const hiddenAsNull = (made: Measures): object =>
  JSON.parse(JSON.stringify(made, (_key, value: unknown) => value ?? null)) as object;

function textOf(
  made: Measures,
  { from, to, k }: { readonly from: string; readonly to: string; readonly k: number },
  columns: number | undefined,
): string {
  const hidden =
    k < 3
      ? ' Every count is shown, small ones too: this is not for passing on.'
      : ` A dash is a count that is not shown: one from 1 to ${k - 1}, or one that would tell such a count.`;
  const tables = tablesOf(made);
  return [
    filled(
      `Measures from ${from} to ${to}. Intervals are 95%: Wilson for shares, Greenwood on the log-log scale for days, order statistics for doses.${hidden}`,
      columns,
    ),
    ...tables.map(({ title, rows }) => `\n${filled(title, columns)}${table(rows, columns)}`),
    ...(tables.length === 0 ? [filled('The register holds nothing of this period.', columns)] : []),
    '\n',
    ...notesOf(made, k).map(note => filled(note, columns)),
    filled(CAUTION, columns),
  ].join('');
}

function notesOf({ withoutFigures, notPlacedHere, complications }: Measures, k: number): string[] {
  const many = (n: number | undefined, one: string, more: string) =>
    n === undefined ? `Fewer than ${k} ${more}` : counted(n, one, more);
  return [
    ...(withoutFigures === 0
      ? []
      : [
          `${many(withoutFigures, 'case was', 'cases were')} taken in by an earlier release, without kind, complications and dose: casetally register rebuild.`,
        ]),
    ...(notPlacedHere === 0
      ? []
      : [
          `${many(notPlacedHere, 'device was', 'devices were')} placed by a case that is not held, or on a day that is not known: they are in no figure of how long devices stay.`,
        ]),
    ...(complications.length > 0
      ? [
          'A case of several kinds counts in each of them. A device that was taken out elsewhere counts as inside.',
        ]
      : []),
  ];
}

function smallestOf(text: string): number {
  if (/^(?:1|[3-9]|[1-9]\d{1,3})$/.test(text)) return Number(text);
  throw new CasetallyError(
    'usage',
    `--k ${text}: give 3 or more, below which counts are not shown, or 1 to show them all.`,
  );
}

function daysOf(text: string): number[] {
  const days = text.split(',').map(part => part.trim());
  if (days.length <= 12 && days.every(part => /^[1-9]\d{0,3}$/.test(part)))
    return [...new Set(days.map(Number))];
  throw new CasetallyError('usage', `--within ${text}: give days such as 30,60,90, 12 of them at most.`);
}
