import { CasetallyError } from '../../findings/errors.js';

/** PEM texts for a connection: a private certificate authority, and certificate and key for mutual TLS. */
export interface TlsSettings {
  readonly ca?: string;
  readonly certificate?: string;
  readonly key?: string;
}

/**
 * A fetch for servers behind a private certificate authority or with mutual TLS. The certificate's name is
 * always checked; there is no setting to leave that out.
 *
 * @throws CasetallyError 'settings-invalid' when the PEM cannot be used, without quoting it.
 */
export async function tlsFetch({ ca, certificate, key }: TlsSettings): Promise<typeof globalThis.fetch> {
  const { Agent, fetch } = await import('undici');
  const { createSecureContext } = await import('node:tls');
  const connect = {
    ...(ca !== undefined && { ca }),
    ...(certificate !== undefined && { cert: certificate }),
    ...(key !== undefined && { key }),
  };
  try {
    createSecureContext(connect);
  } catch {
    throw new CasetallyError(
      'settings-invalid',
      'The certificate, key or authority of a destination is not usable PEM',
    );
  }
  const dispatcher = new Agent({ connect });
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
