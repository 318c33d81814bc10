import { createHash, timingSafeEqual } from 'node:crypto';
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

/**
 * Undefined when a request may go on. Without a token (trying out, this machine only) no page of another origin must
 * reach the service through a browser: requests that such a page makes, or that came by another name than this
 * machine's, are refused. The review page, served from here, is let in.
 */
export function refused(
  { authorization, host, origin, fetchSite }: Credentials,
  token: string | undefined,
): Reply | undefined {
  if (token === undefined)
    return isThisMachine(host) &&
      (origin === undefined || origin === `http://${host}`) &&
      (fetchSite === undefined || fetchSite === 'same-origin')
      ? undefined
      : refusal(
          403,
          'forbidden',
          'Without a token only programs on this machine and the review page of this service are served.',
        );
  const given = /^Bearer +(\S+)$/i.exec(authorization ?? '')?.[1];
  // Digests are of equal length, so that the time taken tells nothing of the token.
  if (given !== undefined && timingSafeEqual(digest(given), digest(token))) return undefined;
  return refusal(401, 'login', 'A bearer token is needed.', [], { 'www-authenticate': 'Bearer' });
}

const digest = (text: string) => createHash('sha256').update(text, 'utf8').digest();

function isThisMachine(host: string | undefined): boolean {
  return /^(localhost|127\.0\.0\.1|\[::1\])(:\d+)?$/.test(host ?? '');
}

/** True for the names and addresses that only this machine answers to. */
export function isLoopback(host: string): boolean {
  return /^(localhost|127(\.\d{1,3}){3}|::1)$/.test(host);
}
