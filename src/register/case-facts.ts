import type { AftercareItem } from '../clinical/aftercare/aftercare.js';
import type { Assessment } from '../clinical/assessment.js';
import { eventsOf } from '../devices/by-device.js';
import { normalDi } from '../devices/catalogue/row.js';
import { placeOf } from '../devices/place.js';
import { type DeviceDetails, isInside, type TallyEntry } from '../devices/types.js';
import { reportVersion } from '../fhir/resources/version.js';
import { say } from '../findings/say.js';
import { died } from '../record/died.js';
import { recordDigest } from '../record/digest.js';
import { grouped } from '../record/grouped.js';
import type { CaseEvent, CaseRecord } from '../record/schema/record.js';
import { distinctNumbers, patientNumber } from '../registry/patient-number.js';
import { wordsOf } from '../trade/words.js';
import { caseFigures } from './case-figures.js';
import type { CaseFacts, DeviceFact, PlanFact } from './facts.js';

/** Whose numbers count. */
export interface FactsOptions {
  /** Numbering system of the case numbers. */
  readonly caseSystem: string;
  /** Numbering system that people go by; needed where a record gives several numbers. */
  readonly patientSystem?: string | undefined;
}

/** What the register keeps of a case: see `CaseFacts`. */
export function caseFacts(record: CaseRecord, assessment: Assessment, options: FactsOptions): CaseFacts {
  const { change, signedAt, status } = record.report;
  const person = patientNumber(record, options);
  const first = Math.min(
    ...[record.case.started, ...(record.events ?? []).map(({ at }) => at)].flatMap(at => at?.epoch ?? []),
  );
  const changedOn = (change?.at ?? signedAt)?.date;
  return {
    case: { system: options.caseSystem, value: record.case.id },
    version: Number(reportVersion(record).number),
    status,
    digest: recordDigest(record),
    date: record.case.date,
    ...(Number.isFinite(first) && { at: first }),
    ...(change && { changed: { ...(changedOn !== undefined && { date: changedOn }), why: change.why } }),
    ...(person && { person }),
    numbers: distinctNumbers(record.patient.identifiers),
    ...(died(record) && { died: record.outcome?.died?.iso.slice(0, 10) ?? '' }),
    devices: [...assessment.devices.values()].flatMap(details => deviceFacts(record, assessment, details)),
    figures: caseFigures(record),
  };
}

/** The facts of a device and of parts that went another way; none of what never was in the patient. */
function deviceFacts(record: CaseRecord, assessment: Assessment, details: DeviceDetails): DeviceFact[] {
  const rows = assessment.tally.entries.filter(({ device }) => device === details.key);
  const whole = rows.filter(({ part }) => part === undefined);
  const main = factOf(record, assessment, details, whole);
  const own = [...grouped(rows, ({ part }) => part)].flatMap(([part, entries]) => {
    const apart = entries.filter(row => mayBeInside(row) && !whole.some(({ state }) => state === row.state));
    if (apart.length === 0) return [];
    return factOf(record, assessment, details, apart, part);
  });
  return [...main, ...own];
}

const isOpen = ({ state }: TallyEntry) => state === 'unaccounted' || state === 'missing';
const mayBeInside = (row: TallyEntry) => isInside(row.state) || isOpen(row);
const wasOut = ({ state }: TallyEntry) => state.startsWith('removed');

function factOf(
  record: CaseRecord,
  assessment: Assessment,
  details: DeviceDetails,
  rows: readonly TallyEntry[],
  part?: string,
): DeviceFact[] {
  const sum = (some: (row: TallyEntry) => boolean) =>
    rows.filter(some).reduce((total, { count }) => total + count, 0);
  const inside = sum(row => isInside(row.state));
  const out = sum(wasOut);
  const open = sum(isOpen);
  // Unopened, wasted, or never in the patient.
  if (inside + out + open === 0 || (details.outside && !details.carried)) return [];
  const [told] = rows.filter(mayBeInside).length > 0 ? rows.filter(mayBeInside) : rows;
  const { carried } = details.entry;
  const events = eventsOf(record, details.key);
  const place = placeOf(record, details, told);
  const replacedBy = events.find(event => event.do === 'exchange' && event.replaces === details.key)?.device;
  const moved = events.some(event => MOVES.has(event.do));
  const outOn = rows
    .filter(wasOut)
    .map(({ removed }) => removed?.date ?? record.case.date)
    .sort()
    .at(-1);
  const [inOn] = rows.flatMap(({ inserted }) => inserted?.date ?? []).sort();
  const items = assessment.aftercare.filter(({ device }) => device === details.key);
  return [
    {
      device: details.key,
      ...(part !== undefined && { part }),
      // Not the number that tells it apart from others of its case: that means nothing in another.
      name: part !== undefined && told ? say(told.name) : details.name,
      // What is not in the table was typed by somebody; the name has it, which is sealed.
      kind: details.row ?? details.family,
      family: details.family,
      ...present({
        di: details.di === undefined ? undefined : (normalDi(details.di) ?? details.di),
        lot: details.lot,
        serial: details.serial,
        expires: details.expires,
        maker: details.maker,
        model: details.model,
        reference: details.reference,
      }),
      ...place,
      retrievable: part === undefined && isRetrievable(details),
      count: inside + out + open,
      inside,
      out,
      ...(inOn !== undefined && { inOn }),
      ...(outOn !== undefined && { outOn }),
      open,
      ...(told && purposeOf(told)),
      ...(carried &&
        part === undefined && {
          carried: {
            ...(carried.case && { case: carried.case }),
            ...(carried.use !== undefined && { use: carried.use }),
            ...(carried.date && { date: carried.date.iso.slice(0, 10) }),
          },
        }),
      ...(moved && inside > 0 && { moved: true }),
      ...(replacedBy !== undefined && part === undefined && { replacedBy }),
      ...(part !== undefined && { ofUse: true }),
      plans: part === undefined ? items.map(planOf) : [],
    },
  ];
}

const MOVES: ReadonlySet<CaseEvent['do']> = new Set([
  'reposition',
  'set',
  'lock',
  'unlock',
  'advance',
  'withdraw',
]);

function present<T extends Record<string, string | undefined>>(values: T): { [K in keyof T]?: string } {
  return Object.fromEntries(Object.entries(values).filter(([, value]) => value !== undefined)) as {
    [K in keyof T]?: string;
  };
}

function purposeOf({ state }: TallyEntry): Pick<DeviceFact, 'purpose'> {
  if (state === 'in situ intended') return { purpose: 'intended' };
  if (state === 'in situ temporary') return { purpose: 'temporary' };
  return state === 'retained unintended' ? { purpose: 'unintended' } : {};
}

/** Retrievable, unless its own words say otherwise. Common practice, no source. */
function isRetrievable({ family, kind, description }: DeviceDetails): boolean {
  return family === 'filter' && !wordsOf(`${kind} ${description ?? ''}`).includes('permanent');
}

function planOf({ key, what, by, earliest, due, latest, condition }: AftercareItem): PlanFact {
  const day = (date: AftercareItem['due']) => (date?.workingDay ?? date?.date)?.slice(0, 10);
  const days = { earliest: day(earliest), due: day(due), latest: day(latest) };
  return { key, what, by, ...present(days), ...(condition !== undefined && { condition }) };
}
