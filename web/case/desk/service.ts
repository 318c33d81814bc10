import { language } from '../../words.js';
import { startEngine } from '../engine/client.js';
import type { EngineCalls, EngineSettings } from '../engine/work.js';
import { draftsAt } from '../session/at-server.js';
import { type KeptHere, keptHere } from '../session/kept.js';
import type { AtServer } from '../session/types.js';
import { RoomClock } from './clock.js';

/** Who is at the page. */
export interface Me {
  readonly signedIn: boolean;
  readonly name?: string;
  readonly signIn?: string;
}

/** What the page works with, once for all cases that are opened on it. */
export interface Service {
  readonly engine: EngineCalls;
  readonly server: AtServer;
  readonly clock: RoomClock;
  /** Unsaved work, while the service is away. */
  readonly kept: KeptHere;
  /** Zone of the site. */
  readonly timeZone: string | undefined;
}

/** The service did not answer, or not to this person. */
export type NoService = { readonly kind: 'away' } | { readonly kind: 'nobody' } | { readonly kind: 'name' };

const NAME = 'casetally-name';
/** Name of whoever is at the page, where nobody signs in: kept until the tab is closed. */
export const typedName = (): string | undefined => sessionStorage.getItem(NAME) ?? undefined;
export const keepName = (name: string): void => sessionStorage.setItem(NAME, name);
export const forgetName = (): void => sessionStorage.removeItem(NAME);

const clock = new RoomClock();
let engine: EngineCalls | undefined;
let settings: EngineSettings['site'] | undefined;
/** Until the service says for how long unsaved work is kept. */
let kept: KeptHere = keptHere(10);

/** Where this page asks for something of the service. */
export const addressOf = (path: string): URL => new URL(path, document.baseURI);

async function json<T>(path: string): Promise<{ readonly status: number; readonly body: T }> {
  const response = await clock.fetch(addressOf(path), { cache: 'no-store', redirect: 'error' });
  return { status: response.status, body: (await response.json()) as T };
}

/** Starts what the page works with; asked again, it goes on with what was started. */
export async function openService(): Promise<Service | NoService> {
  let by: string | undefined;
  try {
    const { body: me } = await json<Me>('me');
    if (!me.signedIn && me.signIn === 'none') {
      by = typedName();
      if (by === undefined) return { kind: 'name' };
    }
    if (!settings) {
      const found = await json<{ readonly site: EngineSettings['site']; readonly hours?: number }>(
        'settings',
      );
      if (found.status === 401 || found.status === 403) return { kind: 'nobody' };
      if (found.status !== 200) return { kind: 'away' };
      settings = found.body.site;
      kept = keptHere(found.body.hours ?? 10);
    }
  } catch {
    if (!settings) return { kind: 'away' };
  }
  engine ??= startEngine(new Worker(addressOf('case/case-engine.js'), { type: 'module' }), {
    site: settings,
    language: language as EngineSettings['language'],
  });
  const fetch: typeof globalThis.fetch = (...given) => clock.fetch(...given);
  const server = draftsAt(document.baseURI, fetch, by);
  return { engine, clock, kept, server, timeZone: settings.timeZone };
}
