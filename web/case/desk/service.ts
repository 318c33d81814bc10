import { language } from '../../words.js';
import { startEngine } from '../engine/client.js';
import type { EngineCalls, EngineSettings } from '../engine/work.js';
import { keepSaid, lastSaid } from '../offline/last-said.js';
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
  /** The site keeps a register of what is inside patients. */
  readonly register: boolean;
}

/** What the service says of the site, and of how people sign in. */
interface Said {
  readonly site: EngineSettings['site'];
  readonly hours: number;
  readonly signIn: string | undefined;
  readonly register: boolean;
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
let last: Said | undefined;
let kept: KeptHere | undefined;

/** Where this page asks for something of the service. */
export const addressOf = (path: string): URL => new URL(path, document.baseURI);

async function json<T>(path: string): Promise<{ readonly status: number; readonly body: T }> {
  const response = await clock.fetch(addressOf(path), { cache: 'no-store', redirect: 'error' });
  return { status: response.status, body: (await response.json()) as T };
}

/** Starts what the page works with; asked again, it goes on with what was started. */
export async function openService(): Promise<Service | NoService> {
  try {
    const { body: me } = await json<Me>('me');
    const signIn = me.signedIn ? undefined : me.signIn;
    if (last) last = { ...last, signIn };
    else {
      const found = await json<Pick<Said, 'site'> & Partial<Said>>('settings');
      if (found.status === 401 || found.status === 403) return { kind: 'nobody' };
      if (found.status !== 200) return { kind: 'away' };
      const { site, hours = 10, register = false } = found.body;
      last = { site, hours, register, signIn };
      void keepSaid(last).catch(() => undefined);
    }
  } catch {
    last ??= await lastSaid<Said>().catch(() => undefined);
    if (!last) return { kind: 'away' };
  }
  const by = last.signIn === 'none' ? typedName() : undefined;
  if (last.signIn === 'none' && by === undefined) return { kind: 'name' };
  kept ??= keptHere(last.hours);
  engine ??= startEngine(new Worker(addressOf('case/case-engine.js'), { type: 'module' }), {
    site: last.site,
    language: language as EngineSettings['language'],
  });
  const fetch: typeof globalThis.fetch = (...given) => clock.fetch(...given);
  const server = draftsAt(document.baseURI, fetch, by);
  const { register, site } = last;
  return { engine, clock, kept, server, register, timeZone: site.timeZone };
}
