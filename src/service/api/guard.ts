import { createHash, timingSafeEqual } from 'node:crypto';
import type { Right } from '../../site/service.js';
import type { Person } from '../sign-in/sessions.js';
import { type Reply, refusal } from './reply.js';

/** What of a request decides whether it is let in. */
export interface Credentials {
  readonly authorization?: string | undefined;
  readonly host?: string | undefined;
  readonly origin?: string | undefined;
  /** Sec-Fetch-Site: who made a browser ask; pages cannot set it. */
  readonly fetchSite?: string | undefined;
}

/** Shorter tokens can be guessed. */
export const MIN_TOKEN_LENGTH = 20;

/** A token that callers may show: only its digest is known here. */
export interface KnownToken {
  /** Who it was given to, for the log. */
  readonly name: string;
  readonly sha256: Buffer;
  /** Absent for one that may do everything. */
  readonly rights?: readonly Right[];
}

/** Who asks: a program by its token, or a person who is signed in. Without either nobody is known. */
export interface Caller {
  /** Of the token. */
  readonly name?: string;
  readonly rights?: readonly Right[];
  readonly person?: Person;
  /** When the person signed in here, in milliseconds since 1970. */
  readonly signedInAt?: number;
  /** Until when they count as having shown who they are just now, as signing a case may ask. */
  readonly freshUntil?: number;
}

/**
 * How somebody stands beside what they decided. Whoever holds a token may write any name, so the token's stands beside
 * it; whoever is signed in goes by that name, and another that they write stands before it.
 */
export function attributed(typed: string | undefined, { name, person }: Caller): string | undefined {
  if (!person) return typed === undefined || name === undefined ? typed : `${typed} (token ${name})`;
  const own = person.verified ? person.name : `${person.name} (name not verified)`;
  return typed === undefined || typed === person.name ? own : `${typed} (signed in as ${own})`;
}

/**
 * Who a request comes from, or why it must not go on. Without tokens (trying out, this machine only) no page of another
 * origin must reach the service through a browser: requests that such a page makes, or that came by another name than
 * this machine's, are refused. The review page, served from here, is let in.
 */
export function callerOf(
  { authorization, host, origin, fetchSite }: Credentials,
  tokens: readonly KnownToken[] | undefined,
): { readonly caller: Caller } | { readonly refused: Reply } {
  if (tokens === undefined)
    return isThisMachine(host) &&
      (origin === undefined || origin === `http://${host}`) &&
      (fetchSite === undefined || fetchSite === 'same-origin')
      ? { caller: {} }
      : {
          refused: refusal(
            403,
            'forbidden',
            'Without a token only programs on this machine and the review page of this service are served.',
          ),
        };
  const given = /^Bearer +(\S+)$/i.exec(authorization ?? '')?.[1];
  const shown = given === undefined ? undefined : tokenDigest(given);
  // Digests are of equal length and all are compared, so that the time taken tells nothing of the tokens.
  const [found] = shown ? tokens.filter(({ sha256 }) => timingSafeEqual(shown, sha256)) : [];
  if (found) return { caller: { name: found.name, ...(found.rights && { rights: found.rights }) } };
  return {
    refused: refusal(401, 'login', 'A bearer token is needed.', [], { 'www-authenticate': 'Bearer' }),
  };
}

/** Why a caller may not do what needs a right; undefined when they may. */
export function lacking({ rights, person }: Caller, right: Right | undefined): Reply | undefined {
  return right === undefined || rights === undefined || rights.includes(right)
    ? undefined
    : refusal(
        403,
        'forbidden',
        person
          ? `The roles of ${person.name} do not give the right '${right}', which this needs.`
          : `This token lacks the right '${right}', which this needs.`,
      );
}

export const tokenDigest = (token: string): Buffer => createHash('sha256').update(token, 'utf8').digest();

/** True for the names of this machine, with a port or without, as they stand in `Host`. */
export function isThisMachine(host: string | undefined): boolean {
  return /^(localhost|127\.0\.0\.1|\[::1\])(:\d+)?$/.test(host ?? '');
}

/** True for the names and addresses that only this machine answers to. */
export function isLoopback(host: string): boolean {
  return /^(localhost|127(\.\d{1,3}){3}|::1)$/.test(host);
}
