import { setTimeout as sleep } from 'node:timers/promises';

/** Waits for some milliseconds, or until the signal of the deps ends it; never rejects. */
export async function waitFor(
  deps: { sleep?: (ms: number, signal?: AbortSignal) => Promise<void>; signal?: AbortSignal },
  ms: number,
): Promise<void> {
  if (deps.sleep) return deps.sleep(ms, deps.signal);
  try {
    await sleep(ms, undefined, deps.signal ? { signal: deps.signal } : {});
  } catch {
    // Ended early by the signal: the caller looks at it.
  }
}
