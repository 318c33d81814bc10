import type { Answer, Exchange } from '../../../delivery/http/exchange.js';
import type { Fault, FaultReason } from '../../../delivery/http/fault.js';
import type { Reply } from '../../../delivery/http/fhir-client.js';
import type { PutOutcome } from './transport.js';

/** Makes a request, and once more with a fresh token where the first was not taken. */
export type Authorised = (request: (renewToken: boolean) => Promise<Reply>) => Promise<Reply>;

/** @param authorised true where requests carry a token or a password */
export const authorisedOnce =
  (authorised: boolean): Authorised =>
  async request => {
    const reply = await request(false);
    const denied = reply.exchange.kind === 'answer' && reply.exchange.status === 401;
    return denied && authorised ? request(true) : reply;
  };

const REASONS: Readonly<Record<FaultReason, string>> = {
  name: 'its name cannot be resolved.',
  connect: 'no connection to it can be made.',
  certificate: 'its certificate is not trusted.',
  tls: 'no secure connection to it can be made.',
  reset: 'the connection broke before it answered.',
  timeout: 'it did not answer in time.',
  aborted: 'sending was stopped before it answered.',
  other: 'the connection failed before it answered.',
  'token-refused': 'the authorisation server gave no token.',
  'token-unavailable': 'the authorisation server did not answer.',
};

export const faultText = ({ reason }: Fault): string => REASONS[reason];

export const statusText = (status: number): string => `it answered with HTTP status ${status}.`;

/** What came of giving a batch to a server. @param taken what it means that the server took it */
export function putOutcome(exchange: Exchange, taken: (answer: Answer) => PutOutcome): PutOutcome {
  if (exchange.kind === 'fault')
    return { kind: exchange.sent === 'no' ? 'not sent' : 'unknown', reason: faultText(exchange) };
  const { status } = exchange;
  if (status >= 200 && status < 300) return taken(exchange);
  // A server that fails may have taken the batch before it did.
  return { kind: status >= 500 ? 'unknown' : 'refused', reason: statusText(status) };
}
