import type { Conflict } from '../../../src/drafts/merge-nodes.js';
import type { AtServer, FromServer, ServerDraft } from './types.js';

type Fetch = typeof globalThis.fetch;
const PATIENCE = 30_000;

/**
 * @param base address of the service, with a stroke at its end
 * @param by who is at the page, where nobody signs in at this service
 */
export function draftsAt(
  base: string,
  fetch: Fetch = (...given) => globalThis.fetch(...given),
  by?: string,
): AtServer {
  const ask = async (path: string, init: RequestInit = {}): Promise<FromServer> => {
    let response: Response;
    let body: Record<string, unknown>;
    try {
      response = await fetch(new URL(`v1/drafts/${path}`, base), {
        ...init,
        headers: { ...init.headers, 'x-casetally-page': 'yes' },
        cache: 'no-store',
        redirect: 'error',
        signal: AbortSignal.timeout(PATIENCE),
      });
      body = (await response.json()) as Record<string, unknown>;
    } catch {
      return { kind: 'away' };
    }
    return answered(response, body);
  };
  return {
    async read(id) {
      const found = await ask(encodeURIComponent(id));
      return found.kind === 'saved' ? { kind: 'away' } : found;
    },
    save: (id, version, batch, { edits, exact }) =>
      ask(encodeURIComponent(id), {
        method: 'PATCH',
        headers: { 'content-type': 'application/json', 'if-match': `"${version}"` },
        body: JSON.stringify({ batch, edits, ...(by !== undefined && { by }), ...(exact && { exact }) }),
      }),
  };
}

function answered(response: Response, body: Record<string, unknown>): FromServer {
  const { version, text, conflicts, detail } = body as {
    version?: number;
    text?: string;
    conflicts?: readonly Conflict[];
    detail?: string;
  };
  const whole = typeof version === 'number' && typeof text === 'string';
  switch (response.status) {
    case 200:
      if (!whole) return { kind: 'away' };
      return 'state' in body
        ? { kind: 'draft', draft: body as unknown as ServerDraft }
        : { kind: 'saved', version, text };
    case 401:
    case 403:
      return { kind: 'nobody', status: response.status };
    case 404:
      return { kind: 'missing' };
    case 409:
      return { kind: 'closed' };
    case 412:
      return whole && conflicts ? { kind: 'conflict', version, text, conflicts } : { kind: 'closed' };
    case 400:
    case 413:
    case 415:
    case 422:
    case 428:
      return { kind: 'refused', why: detail ?? `${response.status}` };
    default: {
      const after = Number(response.headers.get('retry-after'));
      return { kind: 'away', ...(after > 0 && { after: after * 1_000 }) };
    }
  }
}
