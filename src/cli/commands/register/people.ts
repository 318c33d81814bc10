import { CasetallyError } from '../../../findings/errors.js';
import type { PersonRow } from '../../../register/store/register.js';
import type { Use, UseEvent, UsePlan } from '../../../register/use.js';
import { CAUTION } from '../../about.js';
import { type ExitCode, exitCodes } from '../../exit.js';
import { counted, jsonText, type Output } from '../../output.js';
import { csv } from '../../terminal/csv.js';
import { filled, table } from '../../terminal/fill.js';
import { exitOfList, type RegisterFlags, withRegister } from './open.js';

interface InsideFlags extends RegisterFlags {
  readonly system?: string;
  readonly all?: boolean;
}

/** What is inside a patient, as far as the register knows. */
export function inside(patient: string, flags: InsideFlags, output: Output): Promise<ExitCode> {
  return withRegister(flags, output, async ({ register }) => {
    const people = await register.people(patient, flags.system);
    const found = await Promise.all(
      people.map(async person => {
        const uses = await register.usesOf(person.id);
        return { person, uses: flags.all ? uses : uses.filter(isInside) };
      }),
    );
    if (flags.json)
      output.out(jsonText(found.map(({ person, uses }) => ({ numbers: person.numbers, uses }))));
    else if (flags.csv) output.out(csv([HEAD, ...found.flatMap(({ uses }) => uses.map(cells))]));
    else if (found.length === 0)
      output.out(filled(`The register has no patient with the number ${patient}.`, output.columns));
    else {
      if (found.length > 1)
        output.out(
          filled(
            `${patient} is the number of ${found.length} patients in different systems: name one with --system.`,
            output.columns,
          ),
        );
      for (const one of found) output.out(blockOf(one.person, one.uses, output));
      output.out(filled(CAUTION, output.columns));
    }
    return exitOfList(
      found.flatMap(({ uses }) => uses),
      flags,
    );
  });
}

const isInside = ({ state }: Use) => state === 'inside' || state === 'unknown';

const HEAD = ['use', 'what', 'where', 'state', 'since', 'until', 'purpose', 'number'];

const cells = (use: Use): string[] => [
  use.id,
  use.name,
  use.site ?? '',
  stateText(use),
  use.placed ?? 'not known',
  untilText(use),
  use.purpose ?? '',
  use.count === 1 ? '1' : `${use.inside} of ${use.count}`,
];

function blockOf({ numbers }: PersonRow, uses: readonly Use[], { columns }: Output): string {
  const name = numbers.map(({ system, value }) => `${value} (${system})`).join(', ');
  const rows = uses.map(use => cells(use).slice(0, 6));
  const list = rows.length > 0 ? table([HEAD.slice(0, 6), ...rows], columns) : '';
  return filled(`Patient ${name}: ${counted(uses.length, 'device', 'devices')}`, columns) + list;
}

function stateText({ state, ended }: Use): string {
  if (state === 'removed') return `removed ${ended ?? ''}`.trim();
  return state === 'unknown' ? 'not accounted for' : state;
}

function untilText({ due, latest }: Pick<Use, 'due' | 'latest'>): string {
  if (latest !== undefined && latest !== due)
    return due === undefined ? `at the latest ${latest}` : `${due}, at the latest ${latest}`;
  return due ?? '';
}

/** The history of one device, by any name that a case gave it. */
export function history(name: string, flags: RegisterFlags, output: Output): Promise<ExitCode> {
  return withRegister(flags, output, async ({ register }) => {
    const use = await register.use(name);
    if (!use)
      throw new CasetallyError(
        'usage',
        `the register has no device '${name}': it is CASE/DEVICE, as casetally register inside prints it.`,
      );
    if (flags.json) output.out(jsonText(use));
    else if (flags.csv)
      output.out(
        csv([
          ['date', 'event', 'case', 'version', 'called', 'number', 'linked by', 'note'],
          ...use.events.map(eventCells),
        ]),
      );
    else output.out(historyText(use, output));
    return exitCodes.ok;
  });
}

const eventCells = (event: UseEvent) => [
  event.date,
  event.kind,
  event.case,
  event.version,
  event.as,
  event.count,
  event.evidence,
  event.note,
];

function historyText(use: Use, { columns }: Output): string {
  const known = [
    use.di === undefined ? undefined : `identifier ${use.di}`,
    use.lot === undefined ? undefined : `lot ${use.lot}`,
    use.serial === undefined ? undefined : `serial number ${use.serial}`,
    use.expires === undefined ? undefined : `expires ${use.expires}`,
    use.maker,
    use.model,
  ].filter(part => part !== undefined);
  const dwell = use.dwellDays === undefined ? '' : `, ${counted(use.dwellDays, 'day', 'days')} inside`;
  const held = use.insertionHeld ? '' : '; the case that placed it is not held';
  const head = `${use.name}${use.site === undefined ? '' : `, ${use.site}`}: ${stateText(use)}${dwell}${held}`;
  const events = use.events.map(event => [
    event.date ?? 'not known',
    event.count === undefined ? event.kind : `${event.kind} (${event.count})`,
    event.as,
    [EVIDENCE[event.evidence ?? 'own'], event.note]
      .filter(part => part !== undefined && part !== '')
      .join('; '),
  ]);
  const plans = use.plans.map(plan => [untilText(plan), plan.what, plan.by, planState(plan)]);
  return [
    filled(head, columns),
    known.length > 0 ? filled(known.join(', '), columns) : '',
    table([['date', 'event', 'told as', 'how it is known'], ...events], columns),
    plans.length > 0 ? table([['until', 'what', 'by', 'state'], ...plans], columns) : '',
    filled(CAUTION, columns),
  ].join('');
}

const EVIDENCE: Readonly<Record<NonNullable<UseEvent['evidence']> | 'own', string>> = {
  own: '',
  decided: 'a person decided',
  use: 'the record names this use',
  case: 'the record names the earlier case',
  serial: 'identifier and serial number',
  lot: 'identifier and lot',
};

function planState({ closed, condition }: UsePlan): string {
  if (!closed) return condition === undefined ? 'open' : `open; ${condition}`;
  return `${closed.how}${closed.date === undefined ? '' : ` ${closed.date}`} (${closed.case})`;
}
