import type { Session } from '../destination/session.js';
import { type Reply, resourceOf } from '../http/fhir-client.js';
import type { Criteria } from '../request/submission.js';
import { type Held, search } from './lookup.js';

/** What is at the place asked for, or the answer that told nothing. */
export type Found = { readonly held: readonly Held[] } | { readonly failed: Reply };

/** Looks up what a submission points at, each place once however often it is asked for. */
export interface Looking {
  search(type: string, criteria: Criteria): Promise<Found>;
  read(type: string, id: string): Promise<Found>;
}

/** A look around a destination just before something is sent to it. */
export function looking({ reader }: Pick<Session, 'reader'>): Looking {
  const asked = new Map<string, Promise<Found>>();
  const once = (key: string, ask: () => Promise<Found>): Promise<Found> => {
    const found = asked.get(key) ?? ask();
    asked.set(key, found);
    return found;
  };
  return {
    search: (type, criteria) =>
      once(`${type}?${criteria.parameter}=${criteria.value}`, async () => {
        let failed: Reply | undefined;
        const held = await search(reader, type, criteria, reply => {
          failed = reply;
        });
        if (held !== 'no-answer') return { held };
        return failed ? { failed } : { held: [] };
      }),
    read: (type, id) =>
      once(`${type}/${id}`, async () => {
        const reply = await reader.read(type, id);
        const resource = resourceOf(reply);
        if (resource) return { held: [{ id, resource }] };
        return isAbsent(reply) ? { held: [] } : { failed: reply };
      }),
  };
}

function isAbsent({ exchange }: Reply): boolean {
  return exchange.kind === 'answer' && (exchange.status === 404 || exchange.status === 410);
}

/** True where asking again later may be answered: no answer came, or the server is not itself for now. */
export function isPassing({ exchange }: Reply): boolean {
  if (exchange.kind === 'fault') return true;
  const { status } = exchange;
  return status === 408 || status === 429 || (status >= 500 && status !== 501);
}
