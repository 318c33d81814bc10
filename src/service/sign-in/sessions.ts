import { createHash, randomBytes } from 'node:crypto';
import type { Role } from '../../site/roles.js';
import type { SessionLimits } from '../../site/sign-in.js';

/** Somebody who signed in. Names and roles are those of that moment; nothing of the provider's tokens is kept. */
export interface Person {
  readonly name: string;
  readonly roles: readonly Role[];
  /** Absent where the name was typed on this machine, and nobody verified it. */
  readonly verified?: { readonly issuer: string; readonly subject: string };
}

export interface Session {
  readonly person: Person;
  /** Milliseconds since 1970. */
  readonly signedInAt: number;
  /** Until when the person counts as having shown who they are just now. */
  readonly freshUntil: number;
  /** The end of the session, however much is asked. */
  readonly until: number;
  /** Digest of what the browser was known by while it signed in. */
  readonly browser: string;
}

interface Kept extends Session {
  lastAsked: number;
}

/** More are not kept at once: whoever asked longest ago goes. */
const MOST = 10_000;

/** 256 bits of chance, as text for a cookie or an address. */
export const secretText = (): string => randomBytes(32).toString('base64url');

/** Kept in place of a secret, so that a copy of the memory gives nobody's session away. */
export const digestOf = (secret: string): string =>
  createHash('sha256').update(secret, 'utf8').digest('base64url');

/**
 * Who is signed in, in the memory of this process. A restart signs everybody out; several processes need a proxy that
 * leads each browser to the same one.
 */
export class Sessions {
  readonly #kept = new Map<string, Kept>();
  readonly #limits: SessionLimits;
  readonly #clock: () => number;
  readonly #most: number;

  constructor(limits: SessionLimits, clock: () => number, most = MOST) {
    this.#limits = limits;
    this.#clock = clock;
    this.#most = most;
  }

  /**
   * Opens a session under a new id; those that this browser had, and the one that is named, end.
   *
   * @param shownAt when the person last showed who they are; undefined where nobody says
   * @returns the id, for the cookie alone
   */
  open(person: Person, browser: string, shownAt: number | undefined, former?: string): string {
    const now = this.#clock();
    if (former !== undefined) this.#kept.delete(former);
    for (const [key, { browser: other }] of this.#kept) if (other === browser) this.#kept.delete(key);
    if (this.#kept.size >= this.#most) this.#makeRoom(now);
    const id = secretText();
    // A provider's clock may be ahead of this one.
    const fresh = shownAt === undefined ? now : Math.min(shownAt, now) + this.#limits.freshMinutes * 60_000;
    this.#kept.set(digestOf(id), {
      ...{ person, browser, signedInAt: now, lastAsked: now },
      freshUntil: Math.max(now, fresh),
      until: now + this.#limits.hours * 3_600_000,
    });
    return id;
  }

  /** The session of an id, and what it is kept under; asking keeps it from ending idle. */
  find(id: string | undefined): { readonly key: string; readonly session: Session } | undefined {
    if (id === undefined) return undefined;
    const key = digestOf(id);
    const session = this.#kept.get(key);
    if (!session) return undefined;
    const now = this.#clock();
    if (this.#isOver(session, now)) {
      this.#kept.delete(key);
      return undefined;
    }
    session.lastAsked = now;
    return { key, session };
  }

  /** Ends a session, and every other of the same verified person: on every machine where they signed in here. */
  end(key: string): void {
    const verified = this.#kept.get(key)?.person.verified;
    this.#kept.delete(key);
    if (!verified) return;
    for (const [other, { person }] of this.#kept)
      if (person.verified?.issuer === verified.issuer && person.verified.subject === verified.subject)
        this.#kept.delete(other);
  }

  /** How long the cookie of a session may be kept. */
  secondsLeft(id: string): number {
    const session = this.#kept.get(digestOf(id));
    return session ? Math.max(0, (session.until - this.#clock()) / 1_000) : 0;
  }

  get size(): number {
    return this.#kept.size;
  }

  #isOver({ until, lastAsked }: Kept, now: number): boolean {
    return now >= until || now >= lastAsked + this.#limits.idleMinutes * 60_000;
  }

  #makeRoom(now: number): void {
    let idlest: readonly [string, number] | undefined;
    for (const [key, session] of this.#kept)
      if (this.#isOver(session, now)) this.#kept.delete(key);
      else if (!idlest || session.lastAsked < idlest[1]) idlest = [key, session.lastAsked];
    if (this.#kept.size >= this.#most && idlest) this.#kept.delete(idlest[0]);
  }
}
