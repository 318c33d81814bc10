import { Temporal } from 'temporal-polyfill';
import type { DeviceDetails } from '../../devices/types.js';
import { type Finding, finding } from '../../findings/finding.js';
import { entriesOf } from '../../record/entries.js';
import type { CaseRecord } from '../../record/schema/record.js';
import { comesOut } from '../../trade/removal.js';
import { type DaySpan, daysTold } from '../day-words.js';
import { toldAfter, toldToReaders } from '../texts.js';
import type { AftercareItem } from './aftercare.js';

const ends =
  /\b(?:out|remov\w+|retriev\w+|pull(?:ed)?|exchang\w+|chang(?:e|ed|ing)|replac\w+|stays?(?: in)?|remains?(?: in)?|leave (?:it|the \w+) in|kept in)\b/i;
const aside =
  /\b(?:dressing|bag|bottle|if|when|unless|in case|not|never|stitch\w*|sutures?|old|previous|was|were|has been|every|each|check|clinic|flush|shower|work|drive|lift|patent|open|at least)\b/i;
/** Between what was counted and what people say lies the rounding of weeks and months. */
const SLACK = 0.25;

/** When a device comes out as readers are told, against the days that aftercare or the entry on what stays give. */
export function endsTold(
  record: CaseRecord,
  items: readonly AftercareItem[],
  devices: ReadonlyMap<string, DeviceDetails>,
): Finding[] {
  const left = entriesOf(record.left).filter(({ purpose }) => purpose !== 'intended');
  const texts = [
    ...toldToReaders(record).filter(({ path }) => path.startsWith('advice')),
    ...toldAfter(record).filter(({ path }) => path !== 'outcome.disposition'),
  ];
  return left.flatMap(({ device }, index) => {
    const details = devices.get(device);
    const noun = details?.kind.toLowerCase().split(' ').at(-1) ?? device;
    const planned = spanOf(record, items, device);
    if (!planned) return [];
    return texts.flatMap(({ path, text }) =>
      text.split(/[.;]\s+|;|,\s/).flatMap(clause => {
        const named =
          new RegExp(`\\b${escaped(noun)}s?\\b`, 'i').test(clause) ||
          (left.length === 1 && /\b(?:retrieval|removal)\b/i.test(clause));
        if (!named || !ends.test(clause) || aside.test(clause)) return [];
        const told = daysTold(clause, record.case.date);
        const to = /\b(?:latest|no later|within|by|up to|until|before)\b/i.test(clause)
          ? planned.last
          : planned.to;
        if (!told || told.to <= 0 || fits(told, { from: planned.from, to })) return [];
        return [
          finding('clinical.latest-differs', path, {
            what: clause.trim(),
            planned: day(record, told.from),
            latest: day(record, to),
            device: details?.said ?? `${index}`,
          }),
        ];
      }),
    );
  });
}

const escaped = (text: string) => text.replace(/[.*+?^${}()|[\]\\]/g, '\\$&');
const fits = (told: DaySpan, planned: DaySpan) =>
  told.to >= planned.from * (1 - SLACK) - 1 && told.from <= planned.to * (1 + SLACK) + 1;

function day({ case: head }: CaseRecord, days: number) {
  const iso = Temporal.PlainDate.from(head.date)
    .add({ days: Math.round(days) })
    .toString();
  return { when: { text: iso, iso } };
}

/** From the earliest to the latest day on which the device is to come out. */
interface Planned extends DaySpan {
  readonly last: number;
}

function spanOf(
  { case: head }: CaseRecord,
  items: readonly AftercareItem[],
  device: string,
): Planned | undefined {
  const start = Temporal.PlainDate.from(head.date);
  const own = items.filter(item => item.device === device);
  const ending = own.filter(item => item.source === 'left' || comesOut(item.what));
  const days = (pick: (item: AftercareItem) => readonly (AftercareItem['due'] | undefined)[]) =>
    (ending.length > 0 ? ending : own)
      .flatMap(pick)
      .flatMap(one =>
        one && one.date.length >= 10
          ? [start.until(Temporal.PlainDate.from(one.date.slice(0, 10)), { largestUnit: 'days' }).days]
          : [],
      );
  const all = days(({ earliest, due, latest }) => [earliest, due, latest]);
  const due = days(item => [item.due]);
  if (all.length === 0) return undefined;
  // 'Comes out in four weeks' is the day it is due, not the last that would do.
  return { from: Math.min(...all), to: Math.max(...(due.length > 0 ? due : all)), last: Math.max(...all) };
}
