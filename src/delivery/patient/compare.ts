import {
  type ExactJson,
  type ExactObject,
  isExactArray,
  listAt,
  objectAt,
  textAt,
} from '../answer/exact-json.js';
import { numbersOf } from '../request/expected.js';
import { type Agreement, compareNames } from './names.js';

/** How one field of the record and of what a destination has agree, where they do not agree wholly. */
export interface Deviation {
  /** As `--accept` names it. */
  readonly field: string;
  readonly agreement: 'near' | 'differs' | 'not-compared';
  readonly sent: string;
  readonly held: string;
}

const notCompared = (field: string): Deviation => ({ field, agreement: 'not-compared', sent: '', held: '' });

function deviation(field: string, agreement: Agreement | undefined, sent: string, held: string): Deviation[] {
  if (agreement === undefined) return [notCompared(field)];
  return agreement === 'same' ? [] : [{ field, agreement, sent: shown(sent), held: shown(held) }];
}

/** A value as it may be shown beside another: one line, of bounded length. */
export const shown = (text: string) => text.replace(/[\p{Cc}\p{Zl}\p{Zp}]+/gu, ' ').slice(0, 120);

/**
 * Compares a patient of the record with the one that a destination has under the same number. Only what the record says
 * is compared; what the destination does not have is 'not compared'.
 *
 * @param start of the case, as a FHIR dateTime.
 */
export function comparePatients(
  ours: ExactObject,
  theirs: ExactObject,
  start: string | undefined,
): Deviation[] {
  return [
    ...births(textAt(ours, 'birthDate'), textAt(theirs, 'birthDate')),
    ...sexes(textAt(ours, 'gender'), textAt(theirs, 'gender')),
    ...names(ours, theirs),
    ...otherNumbers(ours, theirs),
    ...deaths(theirs, start),
  ];
}

/** Dates agree as far as both go; every other day is another person, be it by one digit or by day and month swapped. */
function births(ours: string | undefined, theirs: string | undefined): Deviation[] {
  if (ours === undefined) return [];
  if (!theirs) return [notCompared('birthDate')];
  const agree = ours.startsWith(theirs) || theirs.startsWith(ours);
  return deviation('birthDate', agree ? 'same' : 'differs', ours, theirs);
}

function sexes(ours: string | undefined, theirs: string | undefined): Deviation[] {
  if (ours === undefined || ours === 'unknown') return [];
  if (theirs === undefined || theirs === 'unknown') return [notCompared('sex')];
  const agreement = ours === theirs ? 'same' : [ours, theirs].includes('other') ? 'near' : 'differs';
  return deviation('sex', agreement, ours, theirs);
}

/** With every name that the destination has: that at birth, the one before a marriage, in each script. */
function names(ours: ExactObject, theirs: ExactObject): Deviation[] {
  const [sent] = namesOf(ours);
  if (sent === undefined) return [];
  const held = namesOf(theirs);
  const verdicts = held.flatMap(name => {
    const agreement = compareNames(sent, name);
    const swapped = agreement === 'same' && !partsAgree(ours, theirs);
    return agreement === undefined ? [] : [{ agreement: swapped ? 'near' : agreement, name } as const];
  });
  const best =
    verdicts.find(v => v.agreement === 'same') ?? verdicts.find(v => v.agreement === 'near') ?? verdicts[0];
  return deviation('name', best?.agreement, sent, best?.name ?? '');
}

/** True unless both sides give family and given name and in none of the names there each is what it is here. */
function partsAgree(ours: ExactObject, theirs: ExactObject): boolean {
  const parted = (patient: ExactObject) =>
    listAt(patient, 'name').flatMap(name => {
      const [family, given] = [words(name, 'family').join(' '), words(name, 'given').join(' ')];
      return family !== '' && given !== '' ? [{ family, given }] : [];
    });
  const [sent] = parted(ours);
  const held = parted(theirs);
  if (!sent || held.length === 0) return true;
  return held.some(
    one =>
      compareNames(sent.family, one.family) !== 'differs' &&
      compareNames(sent.given, one.given) !== 'differs',
  );
}

function namesOf(patient: ExactObject): string[] {
  return listAt(patient, 'name').flatMap(name => {
    const parts = [...words(name, 'given'), ...words(name, 'family'), ...words(name, 'suffix')].join(' ');
    return [textAt(name, 'text') ?? '', parts].filter(text => text.trim() !== '');
  });
}

function words(name: ExactJson, key: string): string[] {
  const value = objectAt({ name }, 'name')?.[key];
  const list = isExactArray(value) ? value : [value];
  return list.filter(word => typeof word === 'string');
}

/** Another number of the same system is not proof: two numbers of one person are joined by merging records. */
function otherNumbers(ours: ExactObject, theirs: ExactObject): Deviation[] {
  const held = numbersOf(theirs);
  return numbersOf(ours).flatMap(({ system, value }) => {
    const there = held.filter(number => number.system === system);
    if (there.length === 0 || there.some(number => number.value === value)) return [];
    return deviation('identifier', 'near', value, there.map(number => number.value).join(', '));
  });
}

function deaths(theirs: ExactObject, start: string | undefined): Deviation[] {
  const died = textAt(theirs, 'deceasedDateTime');
  if (died === undefined) return theirs['deceasedBoolean'] === true ? [notCompared('deceased')] : [];
  if (start === undefined) return [notCompared('deceased')];
  return deviation('deceased', isBefore(died, start) ? 'differs' : 'same', start, died);
}

/** True when all that one FHIR dateTime may mean is before the other; one without a time is a day where the other is. */
export function isBefore(a: string, b: string): boolean {
  if (a.length > 10 && b.length > 10) return Date.parse(a) < Date.parse(b);
  const length = Math.min(a.length, b.length, 10);
  return a.slice(0, length) < b.slice(0, length);
}

const DAY_MS = 86_400_000;

/** Whether a case lies in the period of an encounter; a day outside is near, for encounters are entered late. */
export function comparePeriod(encounter: ExactObject, start: string | undefined): Deviation[] {
  // R5 calls it the actual period.
  const period = objectAt(encounter, 'period') ?? objectAt(encounter, 'actualPeriod');
  const from = textAt(period, 'start');
  const to = textAt(period, 'end');
  if (start === undefined || (from === undefined && to === undefined))
    return [notCompared('encounter.period')];
  const early = from !== undefined && isBefore(start, from);
  const late = to !== undefined && isBefore(to, start);
  if (!early && !late) return [];
  const off = Math.abs(Date.parse(start) - Date.parse((early ? from : to) ?? ''));
  return deviation(
    'encounter.period',
    off <= DAY_MS ? 'near' : 'differs',
    start,
    `${from ?? '…'} to ${to ?? '…'}`,
  );
}

const VOID: ReadonlySet<string | undefined> = new Set(['entered-in-error']);
const CALLED_OFF: ReadonlySet<string | undefined> = new Set(['cancelled', 'revoked']);

/** An encounter or order that was entered in error is none; one that was called off is to be looked at. */
export function compareStatus(field: string, resource: ExactObject): Deviation[] {
  const status = textAt(resource, 'status');
  const agreement = VOID.has(status) ? 'differs' : CALLED_OFF.has(status) ? 'near' : 'same';
  return deviation(`${field}.status`, agreement, 'in use', status ?? '');
}

/** Whether an order has the accession number of the case, where it has one of that system at all. */
export function compareOrders(ours: ExactObject | undefined, theirs: ExactObject): Deviation[] {
  const held = numbersOf(theirs);
  return numbersOf(ours).flatMap(({ system, value }) => {
    const there = held.filter(number => number.system === system);
    if (there.length === 0 || there.some(number => number.value === value)) return [];
    return deviation('order.identifier', 'differs', value, there.map(number => number.value).join(', '));
  });
}
