import { compareNames } from '../../delivery/patient/names.js';
import { Decimal } from '../../record/decimal.js';
import { agree, inUnit, summed } from './numbers.js';
import type { DoseFile, DoseReport } from './report.js';
import { figuresOf } from './totals.js';

/** Whether two reports are about one person, as far as both say: number and birth date must not differ. */
export function samePerson({ patient: a }: DoseReport, { patient: b }: DoseReport): boolean {
  const apart = (x: string | undefined, y: string | undefined) =>
    x !== undefined && y !== undefined && x !== y;
  if (apart(a.birthDate, b.birthDate)) return false;
  const names = [a.name, ...a.otherNames].filter(name => name !== undefined);
  const others = [b.name, ...b.otherNames].filter(name => name !== undefined);
  const named = names.some(name => others.some(other => compareNames(name, other) === 'same'));
  if (!apart(a.id, b.id)) return a.id !== undefined || named;
  // Other numbers may be of other systems: then name and birth date must both be there and be the same.
  return named && a.birthDate !== undefined && a.birthDate === b.birthDate;
}

/** Two files by the time of their content; one whose events the other has, or that it names, is the earlier. */
export function laterOf(a: DoseFile, b: DoseFile): readonly [DoseFile, DoseFile] {
  if (isNamed(b.report, a.report)) return [b, a];
  if (isNamed(a.report, b.report)) return [a, b];
  const [n, m] = [uidsOf(a.report).size, uidsOf(b.report).size];
  if (n !== m) return n > m ? [b, a] : [a, b];
  return (a.report.at ?? '') > (b.report.at ?? '') ? [b, a] : [a, b];
}

const isNamed = (early: DoseReport, late: DoseReport) =>
  early.instance !== undefined && late.predecessors.includes(early.instance);

const uidsOf = ({ xrayEvents, ctEvents }: DoseReport) =>
  new Set([...xrayEvents, ...ctEvents].flatMap(({ uid }) => uid ?? []));

/** By its serial number or observer UID, else by all that is said of it. */
function sameSystem({ system: a, kind }: DoseReport, { system: b, kind: other }: DoseReport): boolean {
  if (kind !== other) return false;
  for (const key of ['serial', 'observer'] as const)
    if (a[key] !== undefined && b[key] !== undefined) return a[key] === b[key];
  return a.manufacturer === b.manufacturer && a.model === b.model && a.station === b.station;
}

/**
 * What two reports are to each other. `held`: the later one holds all of the earlier. `apart`: their events are others.
 * `unclear`: they share some events, or name none, so that adding could count a dose twice.
 */
export function relation(early: DoseReport, late: DoseReport): 'held' | 'apart' | 'unclear' {
  const [events, others] = [uidsOf(early), uidsOf(late)];
  const shared = [...events].filter(uid => others.has(uid)).length;
  if (!sameSystem(early, late)) return shared > 0 ? 'unclear' : 'apart';
  if (isNamed(early, late) || (events.size > 0 && shared === events.size))
    return shrinks(early, late) ? 'unclear' : 'held';
  if (shared > 0) return 'unclear';
  const whole = (report: DoseReport, uids: ReadonlySet<string>) =>
    uids.size > 0 && uids.size === report.xrayEvents.length + report.ctEvents.length;
  if (!whole(early, events) || !whole(late, others)) return 'unclear';
  return goesOn(early, late) ? 'held' : 'apart';
}

const mainFigure = ({ kind }: DoseReport) => (kind === 'ct' ? 'doseLengthProduct' : 'kermaAreaProduct');

/** True where the later report gives less than the earlier one: it cannot hold it then. */
function shrinks(early: DoseReport, late: DoseReport): boolean {
  const [before, after] = [early, late].map(report => figuresOf(report)[mainFigure(report)]);
  return before !== undefined && after !== undefined && new Decimal(after.value).lessThan(before.value);
}

/** True where the later totals go on from the earlier ones, while its events are its own alone. */
function goesOn(early: DoseReport, late: DoseReport): boolean {
  const name = mainFigure(early);
  const unit = early.kind === 'ct' ? 'mGy.cm' : 'Gy.cm2';
  const [before, after] = [figuresOf(early)[name], figuresOf(late)[name]];
  const own = [
    ...late.xrayEvents.map(event => event.doseAreaProduct),
    ...late.ctEvents.map(event => event.doseLengthProduct),
  ].filter(part => part !== undefined);
  const sum = summed(own, unit);
  if (!before || !after || !sum || after.fromEvents !== undefined) return false;
  const parts = own.flatMap(part => inUnit(part, unit) ?? []);
  const both = summed([before, sum], unit);
  return both !== undefined && agree(after.value, both.value, parts) && !agree(after.value, sum.value, parts);
}
