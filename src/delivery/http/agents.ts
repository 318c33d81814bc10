import { createSecureContext } from 'node:tls';
import { Agent, type Dispatcher } from 'undici';
import { CasetallyError } from '../../findings/errors.js';

/** PEM texts for a connection: a private certificate authority, and certificate and key for mutual TLS. */
export interface TlsSettings {
  readonly ca?: string;
  readonly certificate?: string;
  readonly key?: string;
}

/**
 * The connections to servers behind a private certificate authority or with mutual TLS. The certificate's name is
 * always checked; there is no setting to leave that out.
 *
 * @throws CasetallyError 'settings-invalid' when the PEM cannot be used, without quoting it.
 */
export function tlsAgent(settings: TlsSettings): Agent {
  const connect = connectOptions(settings);
  try {
    createSecureContext(connect);
  } catch {
    throw new CasetallyError(
      'settings-invalid',
      'The certificate, key or authority of a destination is not usable PEM',
    );
  }
  return new Agent({ connect });
}

function connectOptions({ ca, certificate, key }: TlsSettings) {
  return {
    ...(ca !== undefined && { ca }),
    ...(certificate !== undefined && { cert: certificate }),
    ...(key !== undefined && { key }),
  };
}

const plainAgents = new Map<number, Dispatcher>();

/**
 * Connections over which an answer is read up to a bound, for a client that reads a body to its end. One for all
 * destinations of a bound, since connections are kept open between requests; one of its own with own TLS settings.
 *
 * @param maxBytes of a body.
 */
export function boundedAgent(maxBytes: number, tls?: TlsSettings): Dispatcher {
  if (tls) return bounded(maxBytes, tls);
  const known = plainAgents.get(maxBytes) ?? bounded(maxBytes);
  plainAgents.set(maxBytes, known);
  return known;
}

function bounded(maxBytes: number, tls: TlsSettings = {}): Dispatcher {
  const agent = new Agent({ maxResponseSize: maxBytes, connect: connectOptions(tls) });
  return agent.compose(dispatch => (options, handler) => dispatch(options, uncompressed(handler)));
}

/** The bound counts bytes as they come, so an answer that grows when it is unpacked is not read; none is asked for. */
function uncompressed(handler: Dispatcher.DispatchHandler): Dispatcher.DispatchHandler {
  return {
    onRequestStart: (...args) => handler.onRequestStart?.(...args),
    onRequestUpgrade: (...args) => handler.onRequestUpgrade?.(...args),
    onResponseStart: (controller, status, headers, message) => {
      const encoding = headers['content-encoding'];
      if (encoding === undefined || encoding === 'identity')
        handler.onResponseStart?.(controller, status, headers, message);
      else controller.abort(new Error('compressed'));
    },
    onResponseData: (...args) => handler.onResponseData?.(...args),
    onResponseEnd: (...args) => handler.onResponseEnd?.(...args),
    onResponseError: (...args) => handler.onResponseError?.(...args),
  };
}
