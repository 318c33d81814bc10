import { isOutboxFault } from '../../delivery/outbox/store-faults.js';
import { type Reply, refusal } from './reply.js';

/** What an error comes to. Its message may quote the request, so it is not passed on. */
export function faultReply(error: unknown, maxBytes: number): Reply {
  const status =
    typeof error === 'object' && error !== null && 'status' in error ? Number(error.status) : 500;
  if (status === 413)
    return refusal(413, 'too-long', `This may have ${limitOf(error) ?? maxBytes} bytes at most.`);
  if (status === 415) return refusal(415, 'not-supported', 'The encoding of the body is not understood.');
  if (status >= 400 && status < 500) return refusal(400, 'structure', 'The request cannot be read.');
  if (isOutboxFault(error))
    return refusal(
      503,
      'transient',
      `The outbox cannot be used (${error.code}); what was taken in before stands. The case may be sent again: nothing is stored twice. Whoever runs the service finds more with 'casetally outbox doctor'.`,
      [],
      { 'retry-after': '60' },
    );
  return refusal(500, 'exception', 'A fault in Casetally itself; nothing was taken in by this request.');
}

/** The limit that a body was beyond, as the library that reads it says. */
const limitOf = (error: unknown): unknown =>
  typeof error === 'object' && error !== null && 'limit' in error ? error.limit : undefined;
