import type { ServerIssue } from '../answer/issues.js';
import type { EntryDifference } from '../held/compare.js';

/** What a destination holds of one entry. */
export interface ReceiptEntry {
  readonly fullUrl: string;
  readonly type: string;
  /** HTTP status of the entry: 201 created, 200 matched or updated. */
  readonly status: number;
  /** Address as the server gave it. */
  readonly location?: string;
  readonly id?: string;
  readonly version?: string;
  /** Exactly as the server gave it. */
  readonly etag?: string;
  /** How the address was found: in the answer, or by searching for the identifier. */
  readonly found: 'answer' | 'search' | 'not-found';
  readonly outcome?: readonly ServerIssue[];
}

/** The proof of what a destination accepted. */
export interface Receipt {
  readonly destination: string;
  readonly baseUrl: string;
  /** Our id of the request, sent as X-Request-Id. */
  readonly requestId: string;
  /** The server's ids of it, when it gave any. */
  readonly serverRequestId?: string;
  /** ISO time, UTC. */
  readonly sentAt: string;
  /** Digest of exactly what was sent: `sha256:…`. */
  readonly digest: string;
  /** 'answered' by the server, or 'reconciled': found there after the answer was lost. */
  readonly how: 'answered' | 'reconciled';
  readonly entries: readonly ReceiptEntry[];
  /** What the server said besides accepting. */
  readonly warnings: readonly ServerIssue[];
  /** What the destination holds otherwise than it was sent, when it was read back. */
  readonly differences?: readonly EntryDifference[];
}

/** Type, id and version in a location such as `https://host/base/Procedure/12/_history/3`. */
export function parseLocation(
  location: string | undefined,
): { type: string; id: string; version?: string } | undefined {
  const match = location?.match(/(?:^|\/)([A-Z]\w*)\/([A-Za-z0-9.-]{1,64})(?:\/_history\/([\w.-]+))?\/?$/);
  if (!match?.[1] || !match[2]) return undefined;
  return { type: match[1], id: match[2], ...(match[3] && { version: match[3] }) };
}
