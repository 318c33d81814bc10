import { Temporal } from 'temporal-polyfill';
import type { Assessment } from '../../clinical/assessment.js';
import { eventsOf } from '../../devices/by-device.js';
import { placeOf } from '../../devices/place.js';
import { isInside } from '../../devices/types.js';
import { siteCoded } from '../../fhir/concepts.js';
import type { Quantity } from '../../record/quantity.js';
import type { CaseRecord } from '../../record/schema/record.js';
import { pseudonym } from '../pseudonym.js';
import type { RegisteredRow } from './action.js';
import type { AllowedDetails } from './allowed.js';
import { type CaseContext, type caseElements, cut } from './case.js';
import { codesOf } from './codes.js';
import type { EarlierDevice } from './earlier.js';
import type { EntryElements } from './elements.js';

/** What the elements of a device are made from. */
export interface DeviceContext extends CaseContext {
  readonly record: CaseRecord;
  readonly assessment: Assessment;
  /** What is known of a device that was carried in. */
  readonly earlier?: EarlierDevice | undefined;
}

type DeviceElements = Omit<
  EntryElements,
  'entry' | 'status' | 'version' | keyof ReturnType<typeof caseElements>
>;

/** What an entry says of its device, or part; `may` is what may be named of it. */
export function deviceElements(
  row: RegisteredRow,
  may: AllowedDetails,
  context: DeviceContext,
): Partial<DeviceElements> & Pick<EntryElements, 'action' | 'family'> {
  const { details, entry, action } = row;
  const { options, key, asked } = context;
  const serial =
    options.serials === 'pseudonym' && details.serial !== undefined
      ? pseudonym(key, 'serial', `${details.di ?? ''}\u0000${details.serial}`)
      : may.serial;
  const times = timesOf(row, context);
  const issuer = may.di === undefined ? undefined : details.label?.issuerUri;
  const known = present({
    placedEntry: asked.has('placedEntry') ? placedEntry(context) : undefined,
    identifier: may.di,
    issuer: issuer || undefined,
    lot: may.lot,
    serial,
    expires: asked.has('expires') ? details.expires : undefined,
    made: asked.has('made') ? details.manufactured : undefined,
    maker: may.maker,
    model: may.model,
    reference: may.reference,
    kind: asked.has('kind') ? details.row : undefined,
    diameter: asked.has('diameter') ? measure(details.diameter ?? details.size?.diameter) : undefined,
    length: asked.has('length') ? measure(details.length ?? details.size?.length) : undefined,
    part: entry.part === undefined ? undefined : (true as const),
    count: details.count === 1 && entry.count === 1 ? undefined : entry.count,
    placed: times.placed && cut(times.placed, options.dates),
    ended: times.ended && cut(times.ended, options.dates),
    dwellDays: asked.has('dwellDays') ? daysBetween(times.placed, times.ended) : undefined,
    removalReason: asked.has('removalReason') && times.ended ? removalReason(row, context) : undefined,
    nextReview: asked.has('nextReview') ? nextReview(row, context) : undefined,
    ...placed(row, context),
  });
  return { action, family: details.family, ...known };
}

type Present<T> = { [K in keyof T]?: Exclude<T[K], undefined> };

const present = <T extends object>(values: T): Present<T> =>
  Object.fromEntries(Object.entries(values).filter(([, value]) => value !== undefined)) as Present<T>;

/** UCUM, with the digits as written; a bound is no size. */
const measure = (quantity: Quantity | undefined): string | undefined =>
  quantity === undefined || quantity.comparator ? undefined : `${quantity.value} ${quantity.code}`;

/** From when to when it was in the patient, as precise as it is known; both open for what never was. */
function timesOf(
  { details, entry, action }: RegisteredRow,
  { record, earlier }: DeviceContext,
): { readonly placed?: string; readonly ended?: string } {
  if (action === 'opened not used' || (action === 'failed' && !entry.inserted && !details.carried)) return {};
  const placed = details.carried
    ? (finer(details.entry.carried?.date?.iso.slice(0, 10), earlier?.placed) ?? undefined)
    : (entry.inserted?.date ?? record.case.date);
  const out = action === 'removed' || action === 'used' || action === 'failed';
  const ended = out ? (entry.removed?.date ?? record.case.date) : undefined;
  return { ...(placed !== undefined && { placed }), ...(ended !== undefined && { ended }) };
}

/** The more precise of two accounts of one date; the first where both are as precise. */
function finer(one: string | undefined, other: string | undefined): string | undefined {
  if (one === undefined || other === undefined) return one ?? other;
  return other.length > one.length && other.startsWith(one) ? other : one;
}

function daysBetween(placed: string | undefined, ended: string | undefined): number | undefined {
  if (placed?.length !== 10 || ended?.length !== 10) return undefined;
  const { days } = Temporal.PlainDate.from(placed).until(Temporal.PlainDate.from(ended));
  return days < 0 ? undefined : days;
}

function removalReason(
  { details, action }: RegisteredRow,
  { record }: DeviceContext,
): EntryElements['removalReason'] {
  if (action === 'failed') return 'failed';
  const replaced = eventsOf(record, details.key).some(
    event => event.do === 'exchange' && event.replaces === details.key,
  );
  return replaced ? 'exchanged' : 'not recorded';
}

/** The next day on which something is planned about what stays. */
function nextReview(
  { details, entry }: RegisteredRow,
  { assessment, options }: DeviceContext,
): string | undefined {
  if (!isInside(entry.state) || entry.part !== undefined) return undefined;
  const [first] = assessment.aftercare
    .filter(({ device }) => device === details.key)
    .flatMap(({ due, latest }) => due ?? latest ?? [])
    .map(date => (date.workingDay ?? date.date).slice(0, 10))
    .sort();
  return first === undefined ? undefined : cut(first, options.dates);
}

function placed(
  { details, entry }: RegisteredRow,
  { codes, asked, earlier, record }: DeviceContext,
): Pick<EntryElements, 'site' | 'side'> {
  const site = entry.left?.entry.site ?? entry.site ?? details.entry.carried?.site;
  const side = placeOf(record, details, entry).side ?? earlier?.side;
  const [code] = site && codes && asked.has('site') ? codesOf(siteCoded(codes, site, side)) : [];
  return {
    ...(code !== undefined && { site: code }),
    ...(asked.has('side') && side !== undefined && { side }),
  };
}

/** What the entry of the case that placed it goes by, where that is one of the site's own. */
const placedEntry = ({ earlier, key }: DeviceContext): string | undefined =>
  earlier?.placedIn === undefined ? undefined : entryPseudonym(key, earlier.placedIn, earlier);

/** The number that an entry goes by: case and device, the part, and the action where a counted device has several. */
export function entryPseudonym(
  key: CaseContext['key'],
  caseId: string,
  { device, part }: { readonly device: string; readonly part?: string | undefined },
  action?: string,
): string {
  const named = [
    caseId,
    device,
    ...(part === undefined ? [] : [part]),
    ...(action === undefined ? [] : [`=${action}`]),
  ];
  return pseudonym(key, 'case', named.join('\u0000'));
}
