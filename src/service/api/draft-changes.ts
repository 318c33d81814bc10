import type { Drafts, VersionRow } from '../../drafts/store/drafts.js';

/** Where events go to: one open answer. */
export interface Sink {
  write(text: string): void;
  end(): void;
  onClose(then: () => void): void;
  /** Bytes that wait for a reader. */
  waiting(): number;
}

/** Who listens to one draft. */
interface Listener {
  readonly sink: Sink;
  readonly by: string;
  /** The newest version that was told. */
  told: number;
}

/** How often, and for how many. */
export interface ChangesOptions {
  readonly heartbeatMs?: number;
  /** Versions that another process wrote are looked for that often. */
  readonly lookMs?: number;
  readonly most?: number;
  readonly mostOfOne?: number;
  /** An open answer ends after that long, so that whoever may no longer read is not told on: pages ask again. */
  readonly longestMs?: number;
}

/** A reader that has so much waiting is gone, or asleep: it comes again with the last version that it had. */
const MOST_WAITING = 65_536;

/** Tells whoever has a draft open of its new versions, and of each other (Server-Sent Events, HTML standard). */
export class DraftChanges {
  readonly #drafts: Drafts;
  readonly #listeners = new Map<string, Set<Listener>>();
  readonly #timers: NodeJS.Timeout[];
  readonly #most: number;
  readonly #mostOfOne: number;
  readonly #longestMs: number;
  #count = 0;
  #closed = false;

  constructor(
    drafts: Drafts,
    {
      heartbeatMs = 15_000,
      lookMs = 2_000,
      most = 200,
      mostOfOne = 20,
      longestMs = 900_000,
    }: ChangesOptions = {},
  ) {
    this.#drafts = drafts;
    this.#most = most;
    this.#mostOfOne = mostOfOne;
    this.#longestMs = longestMs;
    this.#timers = [
      setInterval(() => this.#beat(), heartbeatMs).unref(),
      setInterval(() => void this.look(), lookMs).unref(),
    ];
  }

  /** Room for one more who listens to a draft. */
  hasRoom(id: string): boolean {
    return (
      !this.#closed && this.#count < this.#most && (this.#listeners.get(id)?.size ?? 0) < this.#mostOfOne
    );
  }

  /** @param after the last version that the listener knows; 0 tells the newest. */
  listen(id: string, by: string, after: number, sink: Sink): void {
    if (!this.hasRoom(id)) {
      sink.end();
      return;
    }
    const listener: Listener = { sink, by, told: after };
    const all = this.#listeners.get(id) ?? new Set();
    this.#listeners.set(id, all.add(listener));
    this.#count += 1;
    const end = setTimeout(() => sink.end(), this.#longestMs).unref();
    sink.onClose(() => {
      clearTimeout(end);
      if (!all.delete(listener)) return;
      this.#count -= 1;
      if (all.size === 0) this.#listeners.delete(id);
      else this.#tellPeople(all);
    });
    sink.write('retry: 2000\n\n');
    this.#tellPeople(all);
    void this.changed(id);
  }

  /** Tells what a draft has become to all who do not know it yet. */
  async changed(id: string): Promise<void> {
    const all = this.#listeners.get(id);
    if (!all) return;
    try {
      const known = Math.min(...[...all].map(({ told }) => told));
      const rows = await this.#drafts.versions(id, known);
      const last = rows.at(-1);
      for (const listener of all) {
        // Who comes without a version knows the draft already, or reads it first.
        const fresh = listener.told === 0 ? (last ? [last] : []) : rows;
        for (const row of fresh) if (row.version > listener.told) tell(listener, row);
      }
    } catch {
      // The store does not answer: the next look tells it.
    }
  }

  /** Looks for versions that another process wrote. */
  async look(): Promise<void> {
    for (const [id, all] of this.#listeners) {
      const version = await this.#drafts.version(id).catch(() => undefined);
      if (version === undefined) continue;
      if ([...all].some(({ told }) => told < version)) await this.changed(id);
    }
  }

  close(): void {
    this.#closed = true;
    for (const timer of this.#timers) clearInterval(timer);
    for (const all of this.#listeners.values()) for (const { sink } of all) sink.end();
  }

  #tellPeople(all: ReadonlySet<Listener>): void {
    const people = [...new Set([...all].flatMap(({ by }) => by || []))].sort();
    for (const { sink } of all) sink.write(`event: people\ndata: ${JSON.stringify({ people })}\n\n`);
  }

  #beat(): void {
    for (const all of this.#listeners.values())
      for (const { sink } of all)
        if (sink.waiting() > MOST_WAITING) sink.end();
        else sink.write(':\n\n');
  }
}

function tell(listener: Listener, { version, state, by, at }: VersionRow): void {
  listener.told = version;
  const data = JSON.stringify({ version, state, by, at: new Date(at).toISOString() });
  listener.sink.write(`id: ${version}\nevent: version\ndata: ${data}\n\n`);
}
