import { Temporal } from 'temporal-polyfill';
import type { DeviceDetails } from '../../devices/types.js';
import { type Finding, finding } from '../../findings/finding.js';
import type { Param } from '../../findings/message.js';
import { entriesOf } from '../../record/entries.js';
import type { CaseRecord } from '../../record/schema/record.js';
import { isClosed } from '../../trade/places.js';
import { comesOut } from '../../trade/removal.js';
import type { AftercareItem } from './aftercare.js';
import { type CountedFrom, dueDate, isAfter } from './due-date.js';

type Devices = ReadonlyMap<string, DeviceDetails>;

const nameOf = (devices: Devices, key: string): Param => devices.get(key)?.said ?? key;
const day = (iso: string): Param => ({ when: { text: iso.slice(0, 16).replace('T', ' '), iso } });

/** Removal or change planned after the last day that the entry on what stays gives for the same device. */
export function latestDiffers(
  record: CaseRecord,
  items: readonly AftercareItem[],
  from: CountedFrom,
  devices: Devices,
): Finding[] {
  return entriesOf(record.left).flatMap(({ device, latest: written }): Finding[] => {
    const latest = written && dueDate(written, from)?.date;
    if (!latest) return [];
    return items
      .filter(item => item.source === 'aftercare' && item.device === device && comesOut(item.what))
      .flatMap(item => {
        const planned = (item.latest ?? item.due ?? item.earliest)?.date;
        if (planned === undefined || !isAfter(planned, latest)) return [];
        const params = {
          what: item.what,
          planned: day(planned),
          latest: day(latest),
          device: nameOf(devices, device),
        };
        return [finding('clinical.latest-differs', item.path, params)];
      });
  });
}

/** Days from the day of the case to a date. */
const daysTo = (record: CaseRecord, iso: string): number =>
  Temporal.PlainDate.from(record.case.date).until(Temporal.PlainDate.from(iso.slice(0, 10)), {
    largestUnit: 'days',
  }).days;

/** Removal or change planned for days that are far from the one until which the device is to stay. */
export function untilDiffers(
  record: CaseRecord,
  items: readonly AftercareItem[],
  from: CountedFrom,
  devices: Devices,
): Finding[] {
  return entriesOf(record.left).flatMap(({ device, until, latest: last }): Finding[] => {
    const stays = [until?.date, last].flatMap(term => {
      const date = term && dueDate(term, from)?.date;
      return date !== undefined && date.length >= 10 ? [date] : [];
    });
    const [first] = stays;
    if (first === undefined) return [];
    const ending = items.filter(
      item => item.source === 'aftercare' && item.device === device && comesOut(item.what),
    );
    const planned = ending.flatMap(({ earliest, due, latest }) =>
      [earliest, due, latest].flatMap(term => (term && term.date.length >= 10 ? [term.date] : [])),
    );
    if (planned.length === 0) return [];
    const days = planned.map(date => daysTo(record, date));
    const [least, most] = [Math.min(...days), Math.max(...days)];
    const stay = stays.map(date => daysTo(record, date));
    // Weeks and months are rounded; half the time, or twice as long, is another plan.
    const apart = stay.every(day => day > most * 2 + 1) || stay.every(day => day * 2 + 1 < least);
    if (!apart) return [];
    const item = ending[0];
    if (!item) return [];
    const params = {
      what: item.what,
      planned: day(planned[planned.length - 1] ?? first),
      latest: day(first),
      device: nameOf(devices, device),
    };
    return [finding('clinical.latest-differs', item.path, params)];
  });
}

const DRAINING: ReadonlySet<string | undefined> = new Set(['drain', 'tube', 'catheter']);

/** `under 10 mL a day`, `≤ 20 mL`: words that somebody at the bedside can measure by. */
const measurable = (condition: string | undefined) =>
  /\d/.test(condition ?? '') &&
  /\b(?:under|below|less than|over|above|more than|at (?:most|least))\b|[<>≤≥]/i.test(condition ?? '');

/** What is changed at intervals needs no more than its dates; a limit in `when` or `call` is one to act on. */
const isDecided = ({ what, condition, call }: AftercareItem) =>
  (comesOut(what) && /^(?:exchange|change|replace)\b/i.test(what)) ||
  measurable(condition) ||
  measurable(call);

/**
 * A drain, tube or catheter that is to come out again is left with a setting, and nothing that can be measured says on
 * what it is changed. Criteria for another device with the same setting count for both.
 */
export function settingWithoutCriteria(
  record: CaseRecord,
  items: readonly AftercareItem[],
  devices: Devices,
): Finding[] {
  const left = entriesOf(record.left);
  const decided = new Set(
    left
      .filter(({ device }) => items.some(item => item.device === device && item.criteria.length > 0))
      .map(({ set }) => set),
  );
  return left.flatMap((entry, index): Finding[] => {
    const { device, part, set, purpose, until } = entry;
    const drains = purpose !== 'intended' && DRAINING.has(devices.get(device)?.family);
    if (set === undefined || part !== undefined || !drains) return [];
    if (decided.has(set) || measurable(until?.condition)) return [];
    const own = items.filter(item => item.device === device);
    if (own.length === 0 || own.some(isDecided)) return [];
    const path = `left[${index}].set`;
    const named = { device: nameOf(devices, device) };
    return isClosed(set)
      ? [finding('clinical.capped-without-criteria', path, named)]
      : [finding('clinical.setting-without-criteria', path, { ...named, set })];
  });
}

/** Something stays, or is to be done, and neither the record nor the site says whom to call. */
export function contactMissing(
  record: CaseRecord,
  items: readonly AftercareItem[],
  contact: string | undefined,
): Finding[] {
  if (record.advice?.contact !== undefined || contact !== undefined) return [];
  if (entriesOf(record.left).length === 0 && items.length === 0) return [];
  // A number or a bleep is somebody to call; 'the department' is not.
  if (items.some(({ call }) => /\d{3}/.test(call ?? ''))) return [];
  return [finding('clinical.contact-missing', 'advice.contact', {})];
}
