import { textAt } from '../answer/exact-json.js';
import type { Exchange } from '../http/exchange.js';
import { type Reply, succeeded } from '../http/fhir-client.js';
import { type Capabilities, readCapabilities, speaks } from './capability.js';
import type { Session } from './session.js';

/** One thing looked at on a destination. */
export interface Check {
  readonly name:
    | 'reachable'
    | 'token'
    | 'metadata'
    | 'version'
    | 'transaction'
    | 'search'
    | 'clock'
    | 'profiles'
    | 'receiver'
    | 'scopes'
    | 'limits';
  readonly verdict: 'pass' | 'fail' | 'not-told';
  /** What was seen, in words, without secrets or patient data. */
  readonly detail: string;
}

/** Clocks further apart than this make signed requests fail sooner or later. */
const MAX_SKEW_MS = 60_000;

/**
 * Looks whether a destination can be sent to, with reads only: reachable, credentials, metadata, version,
 * transactions, searching by identifier, clock, limits.
 */
export async function examineDestination(
  session: Session,
): Promise<{ readonly checks: readonly Check[]; readonly capabilities?: Capabilities }> {
  const { reader } = session;
  const metadata = await reader.metadata();
  const { exchange } = metadata;
  const checks: Check[] = [reachable(exchange)];
  if (session.authorised) checks.push(token(exchange));
  const capabilities = succeeded(metadata) ? readCapabilities(metadata.body) : undefined;
  checks.push(...declared(capabilities, exchange, session));
  if (exchange.kind === 'answer') {
    // An identifier that nobody has: the answer must be an empty search, and reveals nothing.
    const probe = await reader.search('Procedure', {
      identifier: `urn:uuid:${session.newId()}|casetally-probe`,
    });
    checks.push(searching(probe), clock(exchange.headers.date, session.clock()));
  }
  checks.push(limits(session));
  return { checks, ...(capabilities && { capabilities }) };
}

function reachable(exchange: Exchange): Check {
  if (exchange.kind === 'answer')
    return { name: 'reachable', verdict: 'pass', detail: `answers with HTTP ${exchange.status}` };
  const ofToken = exchange.reason === 'token-refused' || exchange.reason === 'token-unavailable';
  if (ofToken) return { name: 'reachable', verdict: 'not-told', detail: 'not asked: there is no token' };
  return { name: 'reachable', verdict: 'fail', detail: `${exchange.reason} ${exchange.code}`.trim() };
}

function token(exchange: Exchange): Check {
  if (exchange.kind === 'fault') {
    const ofToken = exchange.reason === 'token-refused' || exchange.reason === 'token-unavailable';
    return ofToken
      ? { name: 'token', verdict: 'fail', detail: `${exchange.reason} ${exchange.code}`.trim() }
      : { name: 'token', verdict: 'not-told', detail: 'the server was not reached' };
  }
  const refused = exchange.status === 401 || exchange.status === 403;
  return {
    name: 'token',
    verdict: refused ? 'fail' : 'pass',
    detail: refused ? `HTTP ${exchange.status}` : 'taken',
  };
}

function declared(
  capabilities: Capabilities | undefined,
  exchange: Exchange,
  { destination }: Session,
): Check[] {
  if (!capabilities) {
    const verdict = exchange.kind === 'answer' ? 'fail' : 'not-told';
    return [{ name: 'metadata', verdict, detail: 'no CapabilityStatement' }];
  }
  const { fhirVersion = 'none', software = 'unnamed', transaction } = capabilities;
  return [
    { name: 'metadata', verdict: 'pass', detail: `CapabilityStatement of ${software.slice(0, 80)}` },
    {
      name: 'version',
      verdict: speaks(capabilities, destination) ? 'pass' : 'fail',
      detail: `FHIR ${fhirVersion.slice(0, 20)}; set to ${destination.fhirVersion}`,
    },
    {
      name: 'transaction',
      verdict: transaction ? 'pass' : 'fail',
      detail: transaction ? 'declared' : 'not declared; it may work all the same',
    },
  ];
}

function searching(probe: Reply): Check {
  if (succeeded(probe) && textAt(probe.body, 'type') === 'searchset') {
    return { name: 'search', verdict: 'pass', detail: 'Procedure by identifier' };
  }
  const seen = probe.exchange.kind === 'answer' ? `HTTP ${probe.exchange.status}` : probe.exchange.reason;
  return { name: 'search', verdict: 'fail', detail: `Procedure by identifier: ${seen}` };
}

function clock(date: string | undefined, now: number): Check {
  const theirs = date === undefined ? Number.NaN : Date.parse(date);
  if (Number.isNaN(theirs)) return { name: 'clock', verdict: 'not-told', detail: 'the server sends no Date' };
  const seconds = Math.round((theirs - now) / 1000);
  const verdict = Math.abs(theirs - now) <= MAX_SKEW_MS ? 'pass' : 'fail';
  return { name: 'clock', verdict, detail: `the server's clock is ${seconds} s from ours` };
}

function limits({ destination: { maxEntries, maxBytes, timeoutMs } }: Session): Check {
  const size = maxBytes === undefined ? 'no limit of size set' : `at most ${maxBytes} bytes`;
  const count = maxEntries === undefined ? 'no limit of entries set' : `at most ${maxEntries} entries`;
  return {
    name: 'limits',
    verdict: 'pass',
    detail: `${size}, ${count}, ${timeoutMs / 1000} s for an answer`,
  };
}
