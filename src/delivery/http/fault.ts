/** Why no answer came. */
export type FaultReason =
  | 'name'
  | 'connect'
  | 'certificate'
  | 'tls'
  | 'reset'
  | 'timeout'
  | 'aborted'
  | 'other'
  /** The authorisation server refused to give a token. */
  | 'token-refused'
  /** It did not answer, or with something that is no token. */
  | 'token-unavailable';

/**
 * No answer came. Holds no message of the underlying error: those can carry addresses and headers.
 */
export interface Fault {
  readonly kind: 'fault';
  readonly reason: FaultReason;
  /** 'no': it failed before a byte of the request went out. 'maybe': the server may have had it. */
  readonly sent: 'no' | 'maybe';
  /** The code of the underlying error, such as ECONNREFUSED or invalid_client; empty when it has none. */
  readonly code: string;
  readonly durationMs: number;
}

const BEFORE_BYTES: readonly [FaultReason, RegExp][] = [
  ['name', /^(ENOTFOUND|EAI_\w+)$/],
  ['connect', /^(ECONNREFUSED|EHOSTUNREACH|ENETUNREACH|EADDRNOTAVAIL|EHOSTDOWN|UND_ERR_CONNECT_TIMEOUT)$/],
  [
    'certificate',
    /^(CERT_\w+|ERR_TLS_CERT\w*|UNABLE_TO_\w+|DEPTH_ZERO_\w+|SELF_SIGNED_\w+|HOSTNAME_MISMATCH|INVALID_CA)$/,
  ],
  ['tls', /^(EPROTO|ERR_SSL_\w+|ERR_TLS_\w+)$/],
];
const AFTER_BYTES: readonly [FaultReason, RegExp][] = [
  ['timeout', /^(ETIMEDOUT|UND_ERR_HEADERS_TIMEOUT|UND_ERR_BODY_TIMEOUT)$/],
  ['reset', /^(ECONNRESET|EPIPE|UND_ERR_SOCKET|ECONNABORTED|HPE_\w+)$/],
];

/**
 * Classes a failed fetch by the error code found in it or in its causes. A reset counts as 'maybe sent',
 * for nothing tells whether the server had read the request by then.
 */
export function faultOf(
  error: unknown,
  stopped: 'aborted' | 'timeout' | undefined,
  durationMs: number,
): Fault {
  if (stopped) return { kind: 'fault', reason: stopped, sent: 'maybe', code: '', durationMs };
  const code = codeOf(error, 5);
  // The Fetch standard blocks some ports (9, 25 …) before it connects; that error has words and no code.
  if (code === '' && isBlockedPort(error))
    return { kind: 'fault', reason: 'connect', sent: 'no', code: 'BAD_PORT', durationMs };
  for (const [reason, pattern] of BEFORE_BYTES) {
    if (pattern.test(code)) return { kind: 'fault', reason, sent: 'no', code, durationMs };
  }
  for (const [reason, pattern] of AFTER_BYTES) {
    if (pattern.test(code)) return { kind: 'fault', reason, sent: 'maybe', code, durationMs };
  }
  return { kind: 'fault', reason: 'other', sent: 'maybe', code, durationMs };
}

function codeOf(error: unknown, depth: number): string {
  if (typeof error !== 'object' || error === null || depth === 0) return '';
  if ('code' in error && typeof error.code === 'string' && /^[A-Z][A-Z0-9_]*$/.test(error.code))
    return error.code;
  return 'cause' in error ? codeOf(error.cause, depth - 1) : '';
}

function isBlockedPort(error: unknown): boolean {
  const cause = error instanceof TypeError ? error.cause : undefined;
  return cause instanceof Error && cause.message === 'bad port';
}
