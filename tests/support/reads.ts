import { vi } from 'vitest';

/**
 * Answers what the library for reads asks for, which goes by the platform's own fetch; everything else passes. Undone
 * by `vi.unstubAllGlobals()`.
 */
export function answerReads(answer: typeof fetch): void {
  const plain = globalThis.fetch;
  vi.stubGlobal('fetch', (input: string | URL | Request, init?: RequestInit) =>
    input instanceof Request
      ? answer(input.url, { method: input.method, headers: input.headers, signal: input.signal })
      : plain(input, init),
  );
}
