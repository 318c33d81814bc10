import ical, { escape as escaped } from 'ical-generator';
import { CasetallyError } from '../../../findings/errors.js';
import { messageOf, remedyOf } from '../../../findings/finding.js';
import { unlinkedFinding } from '../../../pipeline/register/take.js';
import type { PlanRow, UseSummary } from '../../../register/store/register.js';
import { CAUTION } from '../../about.js';
import type { ExitCode } from '../../exit.js';
import { counted, jsonText, type Output } from '../../output.js';
import { csv } from '../../terminal/csv.js';
import { filled, table } from '../../terminal/fill.js';
import { exitOfList, type RegisterFlags, withRegister } from './open.js';

interface PlanFlags extends RegisterFlags {
  readonly within?: string;
  readonly on?: string;
  readonly kind?: string;
  readonly by?: string;
  readonly ics?: boolean;
  readonly limit?: string;
}

/** As many as a person reads on a screen; files have them all. */
const SHOWN = 500;

/** How many are read: as asked, else all for programs and calendars. */
function limitOf({ limit, json, csv: asCsv, ics }: PlanFlags): { readonly limit?: number } {
  if (limit === undefined) return json || asCsv || ics ? {} : { limit: SHOWN };
  if (!/^[1-9]\d{0,6}$/.test(limit))
    throw new CasetallyError('usage', `'${limit}' is no number of items: give 1 or more.`);
  return { limit: Number(limit) };
}

/** What is said where not all are shown. */
const restOf = (shown: number, all: number): string =>
  shown < all ? `; the first ${shown} are shown (--limit, or --csv for all)` : '';

/** What is to be done about devices inside within some days from a day, today by default. */
export function due(flags: PlanFlags, output: Output): Promise<ExitCode> {
  const from = dayOf(flags.on);
  const to = addDays(from, daysOf(flags.within ?? '14d'));
  const limit = limitOf(flags);
  return withRegister(flags, output, async ({ register }) => {
    const filter = { ...(flags.kind && { kind: flags.kind }), ...(flags.by && { by: flags.by }) };
    const rows = await register.plans({ from, to, ...filter, ...limit });
    const count = await register.planCount({ from, to, ...filter });
    const late = await register.planCount({ overdueOn: from, ...filter });
    const more =
      late > 0 ? `; ${counted(late, 'item is', 'items are')} overdue: casetally register overdue` : '';
    const verdict = `${counted(count, 'item', 'items')} due from ${from} to ${to}${restOf(rows.length, count)}${more}`;
    if (flags.ics) output.out(calendarOf(rows));
    else print(rows, verdict, flags, output);
    return exitOfList(rows, flags);
  });
}

/** What should have been done about devices inside before a day, today by default. */
export function overdue(flags: PlanFlags, output: Output): Promise<ExitCode> {
  const on = dayOf(flags.on);
  const limit = limitOf(flags);
  return withRegister(flags, output, async ({ register }) => {
    const filter = {
      overdueOn: on,
      ...(flags.kind && { kind: flags.kind }),
      ...(flags.by && { by: flags.by }),
    };
    const rows = await register.plans({ ...filter, ...limit });
    const count = await register.planCount(filter);
    print(
      rows,
      `${counted(count, 'item', 'items')} overdue on ${on}${restOf(rows.length, count)}`,
      flags,
      output,
    );
    return exitOfList(rows, flags);
  });
}

/** Retrievable filters that nobody has planned to review. */
export function unreviewed(flags: PlanFlags, output: Output): Promise<ExitCode> {
  const on = dayOf(flags.on);
  return withRegister(flags, output, async ({ register }) => {
    const rows = await register.unreviewed(on);
    const cells = rows.map(use => [
      use.id,
      use.name,
      use.site ?? '',
      use.placed ?? 'not known',
      use.latest ?? use.due ?? '',
    ]);
    const head = ['use', 'what', 'where', 'since', 'planned until'];
    if (flags.json) output.out(jsonText(rows.map(plain)));
    else if (flags.csv) output.out(csv([head, ...cells]));
    else
      output.out(
        filled(
          `${counted(rows.length, 'retrievable filter', 'retrievable filters')} inside without a plan for ${on} or later`,
          output.columns,
        ) +
          (cells.length > 0 ? table([head, ...cells], output.columns) + filled(CAUTION, output.columns) : ''),
      );
    return exitOfList(rows, flags);
  });
}

/** What a person has to decide: devices that could not be linked, and gaps. */
export function unlinked(flags: RegisterFlags, output: Output): Promise<ExitCode> {
  return withRegister(flags, output, async ({ register }) => {
    const [open, gaps, serials] = [
      await register.unlinked(),
      await register.gaps(),
      await register.sameSerials(),
    ];
    const { withoutPerson } = await register.counts();
    if (flags.json) output.out(jsonText({ unlinked: open, gaps, sameSerials: serials, withoutPerson }));
    else if (flags.csv)
      output.out(
        csv([
          ['date', 'case', 'device', 'what', 'why', 'candidates', 'differs in'],
          ...open.map(one => [
            one.date,
            one.case,
            one.device,
            one.name,
            one.why,
            one.candidates.join(' '),
            one.against.join(' '),
          ]),
        ]),
      );
    else {
      const all = `${counted(open.length, 'device', 'devices')} not linked, ${counted(gaps.length, 'gap', 'gaps')}, ${counted(serials.length, 'serial number', 'serial numbers')} in two people, ${counted(withoutPerson, 'case', 'cases')} without a person`;
      output.out(filled(all, output.columns));
      for (const one of open) {
        const found = unlinkedFinding(one);
        output.out(filled(`${messageOf(found)} ${remedyOf(found)}`, output.columns, '- ', '  '));
      }
      for (const { use, case: of, device } of gaps)
        output.out(
          filled(
            `${use} is still open; ${of} saw another device in its place (${device}).`,
            output.columns,
            '- ',
            '  ',
          ),
        );
      for (const { di, serial, use, other } of serials)
        output.out(
          filled(
            `${use} and ${other} have one serial number (${di}, ${serial}).`,
            output.columns,
            '- ',
            '  ',
          ),
        );
    }
    return exitOfList([...open, ...gaps, ...serials], flags);
  });
}

const plain = ({ person: _person, ...use }: UseSummary) => use;

function print(rows: readonly PlanRow[], verdict: string, flags: PlanFlags, output: Output): void {
  const head = ['due', 'latest', 'use', 'device', 'what', 'by'];
  const cells = rows.map(row => [
    row.due ?? '',
    row.latest ?? '',
    row.use.id,
    row.use.name,
    row.what,
    row.by,
  ]);
  if (flags.json) output.out(jsonText(rows.map(({ use, ...plan }) => ({ ...plan, use: plain(use) }))));
  else if (flags.csv) output.out(csv([head, ...cells]));
  else
    output.out(
      filled(verdict, output.columns) +
        (cells.length > 0 ? table([head, ...cells], output.columns) + filled(CAUTION, output.columns) : ''),
    );
}

/** An all-day entry for each item; no name or number of a patient goes into a calendar. */
function calendarOf(rows: readonly PlanRow[]): string {
  const calendar = ical({
    name: escaped('Devices due', false),
    prodId: { company: 'casetally', product: 'register', language: 'EN' },
  });
  for (const row of rows) {
    const day = row.due ?? row.latest;
    if (day === undefined) continue;
    calendar.createEvent({
      id: `${row.use.id}/${row.case}/${row.key}@casetally`,
      stamp: new Date(`${row.use.placed?.padEnd(10, '-01') ?? day}T00:00:00Z`),
      start: new Date(`${day}T12:00:00Z`),
      allDay: true,
      timezone: 'UTC',
      summary: `${row.what} (${row.use.name})`,
      description: [
        `Device: ${row.use.id}`,
        `By: ${row.by}`,
        ...(row.latest ? [`Latest: ${row.latest}`] : []),
        CAUTION,
      ].join('\n'),
    });
  }
  return `${calendar.toString()}\r\n`;
}

/** `YYYY-MM-DD`: as given, else today on this machine's calendar. */
export function dayOf(given: string | undefined): string {
  if (given === undefined) {
    const now = new Date();
    return new Date(now.getTime() - now.getTimezoneOffset() * 60_000).toISOString().slice(0, 10);
  }
  if (
    !/^\d{4}-\d{2}-\d{2}$/.test(given) ||
    new Date(`${given}T00:00:00Z`).toISOString().slice(0, 10) !== given
  )
    throw new CasetallyError('usage', `'${given}' is no day of the calendar: give YYYY-MM-DD.`);
  return given;
}

/** `14d`, `2w` or a bare number of days. */
function daysOf(within: string): number {
  const [, number = '', unit = 'd'] = /^(\d{1,4})\s*(d|w)?$/.exec(within.trim()) ?? [];
  if (number === '')
    throw new CasetallyError('usage', `'${within}' is no number of days: give such as 14d or 2w.`);
  return Number(number) * (unit === 'w' ? 7 : 1);
}

const addDays = (day: string, days: number): string =>
  new Date(Date.parse(`${day}T00:00:00Z`) + days * 86_400_000).toISOString().slice(0, 10);
