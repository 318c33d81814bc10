import { grouped } from '../record/grouped.js';
import type { CaseRecord } from '../record/schema/record.js';

/** The time between two cases that followed each other in one room. */
export interface Turnover {
  readonly room: string;
  /** Id of the case that ended, and of the one that began next. */
  readonly before: string;
  readonly after: string;
  /** From the end of one to the start of the other, whole minutes; undefined where it cannot be told. */
  readonly minutes?: number;
  /** Why it cannot be told. */
  readonly notAssessed?: string;
}

/**
 * Room turnover between cases of one list: those that began in the same room on the same day, in the order of their
 * start. A case without room, start or end has no neighbour. Arithmetic; common practice, no source.
 */
export function turnovers(records: readonly CaseRecord[]): Turnover[] {
  const timed = records.flatMap(({ case: { id, location, started, ended, date } }) =>
    location && started && ended
      ? [{ id, room: location.name, day: date, from: started.epoch, to: ended.epoch }]
      : [],
  );
  const byRoom = grouped(timed, ({ day, room }) => `${day}\n${room.trim().toLowerCase()}`);
  return [...byRoom.values()].flatMap(list =>
    list
      .sort((a, b) => a.from - b.from || (a.id < b.id ? -1 : 1))
      .flatMap((after, index): Turnover[] => {
        const before = list[index - 1];
        if (!before) return [];
        const pair = { room: after.room, before: before.id, after: after.id };
        return after.from < before.to
          ? [{ ...pair, notAssessed: `${after.id} began before ${before.id} had ended` }]
          : [{ ...pair, minutes: Math.round((after.from - before.to) / 60_000) }];
      }),
  );
}
