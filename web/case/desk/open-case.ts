import { Session } from '../session/session.js';
import type { FromServer, SessionView } from '../session/types.js';
import type { Service } from './service.js';

export type NotOpened = Exclude<FromServer, { readonly kind: 'draft' }>;

/** Opens a draft and listens to what becomes of it. */
export async function openCase(
  id: string,
  { engine, server, kept }: Service,
  changed: (view: SessionView) => void,
): Promise<Session | NotOpened> {
  return Session.open(id, {
    ...{ engine, server, kept, changed },
    newBatch: () => crypto.randomUUID(),
    later(call, ms) {
      const timer = setTimeout(call, ms);
      return () => clearTimeout(timer);
    },
  });
}

/** Who else has the case open, and new versions of it, until the answer is called. */
export function listenTo(
  id: string,
  session: Session,
  people: (names: readonly string[]) => void,
): () => void {
  const source = new EventSource(new URL(`v1/drafts/${encodeURIComponent(id)}/changes`, document.baseURI));
  source.addEventListener('version', event => {
    const { version } = JSON.parse(event.data) as { readonly version: number };
    session.look(version);
  });
  source.addEventListener('people', event =>
    people((JSON.parse(event.data) as { readonly people: readonly string[] }).people),
  );
  const back = () => session.retry();
  // The browser asks again by itself; when it got through, the service is back.
  source.addEventListener('open', back);
  addEventListener('online', back);
  return () => {
    source.close();
    removeEventListener('online', back);
  };
}

/** Looks at texts one at a time: of those that come while one is looked at, only the last. */
export class Lookout<T> {
  readonly #work: (text: string) => Promise<T>;
  readonly #done: (found: T, text: string) => void;
  #busy = false;
  #next: string | undefined;

  constructor(work: (text: string) => Promise<T>, done: (found: T, text: string) => void) {
    this.#work = work;
    this.#done = done;
  }

  look(text: string): void {
    this.#next = text;
    if (!this.#busy) void this.#run();
  }

  async #run(): Promise<void> {
    this.#busy = true;
    while (this.#next !== undefined) {
      const text = this.#next;
      this.#next = undefined;
      try {
        this.#done(await this.#work(text), text);
      } catch {
        // The thread of the page ended: what stands here stays.
      }
    }
    this.#busy = false;
  }
}
