import { fetch } from 'undici';
import { type TlsSettings, tlsAgent } from './agents.js';

/**
 * A fetch for servers behind a private certificate authority or with mutual TLS.
 *
 * @throws CasetallyError 'settings-invalid' when the PEM cannot be used, without quoting it.
 */
export function tlsFetch(settings: TlsSettings): typeof globalThis.fetch {
  const dispatcher = tlsAgent(settings);
  return async (url, init = {}) => {
    const { method, headers, body, redirect, signal } = init;
    const response = await fetch(String(url), {
      dispatcher,
      ...(method !== undefined && { method }),
      ...(headers !== undefined && { headers: [...new Headers(headers)] }),
      ...(typeof body === 'string' && { body }),
      ...(redirect !== undefined && { redirect }),
      ...(signal && { signal }),
    });
    // Undici's own classes are not the platform's; what is read of an answer here is the same in both.
    const { status } = response;
    const shown = new Headers([...response.headers]);
    const bodyless = status === 204 || status === 304;
    const stream = bodyless ? null : readable(response.body);
    return new Response(stream, { status, headers: shown });
  };
}

function readable(body: AsyncIterable<Uint8Array> | null): ReadableStream<Uint8Array> | null {
  if (body === null) return null;
  const chunks = body[Symbol.asyncIterator]();
  return new ReadableStream<Uint8Array>({
    async pull(controller) {
      const { done, value } = await chunks.next();
      if (done) controller.close();
      else controller.enqueue(value);
    },
    async cancel() {
      await chunks.return?.();
    },
  });
}
