import { grouped } from '../record/grouped.js';
import { rememberedOf } from '../record/remembered.js';
import type { CaseEvent, CaseRecord } from '../record/schema/record.js';
import type { DeviceTally, TallyEntry, TallyEvent } from './types.js';

// A case may have hundreds of devices and thousands of events: neither is gone through once for each of the other.

type Named = (event: CaseEvent) => readonly (string | undefined)[];

/** Events by the devices that they name, in the order given. */
function byNamed(events: readonly TallyEvent[], named: Named): ReadonlyMap<string, readonly TallyEvent[]> {
  const by = new Map<string, TallyEvent[]>();
  for (const at of events)
    for (const key of new Set(named(at.event))) {
      if (key === undefined) continue;
      const list = by.get(key);
      if (list) list.push(at);
      else by.set(key, [at]);
    }
  return by;
}

/** Events by the device that they are about, or that moved with it. */
export const byMoved = (events: readonly TallyEvent[]) =>
  byNamed(events, ({ device, with: others = [] }) => [device, ...others]);

/** Events by the device that they are about, or that was exchanged for it. */
export const byHandled = (events: readonly TallyEvent[]) =>
  byNamed(events, ({ device, replaces }) => [device, replaces]);

const ofRecord = ({ events = [] }: CaseRecord) =>
  events.map((event, index): TallyEvent => ({ index, path: `events[${index}]`, event }));

const moved = rememberedOf((record: CaseRecord) => byMoved(ofRecord(record)));
const handled = rememberedOf((record: CaseRecord) => byHandled(ofRecord(record)));

/** The events that are about a device, or in which it moved with another, in the order of the record. */
export const eventsMoving = (record: CaseRecord, device: string): readonly TallyEvent[] =>
  moved(record).get(device) ?? [];

/** The events that are about a device, also the one in which another takes its place, in the order of the record. */
export const eventsOf = (record: CaseRecord, device: string): readonly CaseEvent[] =>
  (handled(record).get(device) ?? []).map(({ event }) => event);

const tallied = rememberedOf(({ entries }: DeviceTally) => grouped(entries, ({ device }) => device));

/** Rows of the tally about a device and its parts. */
export const rowsOf = (tally: DeviceTally, device: string): readonly TallyEntry[] =>
  tallied(tally).get(device) ?? [];
