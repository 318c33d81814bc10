/** Longest round trip of an answer whose time is believed, in milliseconds. */
const SLOWEST = 5_000;

/**
 * The clock of the room: that of the service, as far as the `Date` of its answers tells (RFC 9110, 6.6.1: whole
 * seconds), so that two tablets write the same time. Before the first answer it is the tablet's own.
 */
export class RoomClock {
  readonly #own: () => number;
  #ahead = 0;

  constructor(own: () => number = () => Date.now()) {
    this.#own = own;
  }

  /** @returns milliseconds since 1970 */
  now(): number {
    return this.#own() + this.#ahead;
  }

  /** @param sent when it was asked for, by the tablet's clock */
  note(date: string | null, sent: number): void {
    const received = this.#own();
    const at = Date.parse(date ?? '');
    if (Number.isNaN(at) || received - sent > SLOWEST || received < sent) return;
    // Half a second, since the rest of the second was cut off.
    this.#ahead = at + 500 - (sent + received) / 2;
  }

  /** Asks as `fetch` does, and notes the time of the answer. */
  fetch: typeof globalThis.fetch = async (...given) => {
    const sent = this.#own();
    const response = await globalThis.fetch(...given);
    this.note(response.headers.get('date'), sent);
    return response;
  };
}

/** Day and time of a moment in a zone; in the tablet's own where there is no such zone. */
export function dayAndTime(
  at: number,
  timeZone: string | undefined,
): { readonly day: string; readonly time: string } {
  const parts = new Map(
    formatOf(timeZone)
      .formatToParts(at)
      .map(({ type, value }) => [type, value]),
  );
  const part = (name: Intl.DateTimeFormatPartTypes) => parts.get(name) ?? '';
  return {
    day: `${part('year').padStart(4, '0')}-${part('month')}-${part('day')}`,
    time: `${part('hour')}:${part('minute')}`,
  };
}

function formatOf(timeZone: string | undefined): Intl.DateTimeFormat {
  const style = {
    year: 'numeric',
    month: '2-digit',
    day: '2-digit',
    hour: '2-digit',
    minute: '2-digit',
  } as const;
  const options = { ...style, calendar: 'gregory', numberingSystem: 'latn', hourCycle: 'h23' } as const;
  try {
    return new Intl.DateTimeFormat('en-GB', { ...options, ...(timeZone !== undefined && { timeZone }) });
  } catch {
    return new Intl.DateTimeFormat('en-GB', options);
  }
}

/** A moment as the record writes it: the time alone on the day of the case, else with its day. */
export function momentAt(at: number, timeZone: string | undefined, caseDay: string | undefined): string {
  const { day, time } = dayAndTime(at, timeZone);
  return caseDay === undefined || caseDay === day ? time : `${day}T${time}`;
}
