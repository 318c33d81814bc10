import { useEffect, useState } from 'preact/hooks';
import { keepAsking } from '../ask/ask.js';

/** What GET /drafts/ID says of how a draft stands. */
export interface End {
  readonly version: number;
  readonly signature?: {
    readonly by: string;
    readonly verified: boolean;
    /** ISO time, UTC. */
    readonly leavesAt: string;
    readonly to?: string;
  };
  /** Items of the outbox. */
  readonly items?: readonly string[];
  /** Why it came back, or was discarded. */
  readonly why?: string;
}

/** How a draft stands at a version; undefined until that is known. */
export function useEnd(id: string, version: number): End | undefined {
  const [end, setEnd] = useState<End>();
  useEffect(
    () =>
      keepAsking<End>(`v1/drafts/${encodeURIComponent(id)}`, {}, answer => {
        if (answer.ok) setEnd(answer.body);
      }),
    [id, version],
  );
  return end?.version === version ? end : undefined;
}
