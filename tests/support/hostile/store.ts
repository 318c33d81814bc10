/** A resource as the hostile server keeps it. */
export interface Stored {
  resourceType: string;
  id: string;
  meta: { versionId: string };
  [element: string]: unknown;
}

export interface Entry {
  fullUrl?: string;
  resource?: Record<string, unknown>;
  request: { method: string; url: string; ifNoneExist?: string; ifMatch?: string };
}

export interface EntryAnswer {
  response: { status: string; location?: string; etag?: string; outcome?: unknown };
}

/** What one transaction did: the answer for each entry. Throws `Several` when a condition matches several. */
export class Several extends Error {}

/** A deliberately small store of its own: conditional creates and updates by identifier, and nothing else. */
export class HostileStore {
  readonly resources: Stored[] = [];
  /** Resources by identifier, so that thousands of cases do not make it slow. */
  readonly #byToken = new Map<string, Stored[]>();
  #next = 0;

  find(type: string, identifier: string): Stored[] {
    return (this.#byToken.get(identifier) ?? []).filter(
      r => r.resourceType === type && tokens(r).includes(identifier),
    );
  }

  /** How many resources stand under each identifier: anything above one is a double. */
  doubles(): string[] {
    const seen = new Map<string, number>();
    for (const resource of this.resources) {
      for (const token of tokens(resource)) {
        const key = `${resource.resourceType} ${token}`;
        seen.set(key, (seen.get(key) ?? 0) + 1);
      }
    }
    return [...seen].filter(([, count]) => count > 1).map(([key]) => key);
  }

  transaction(entries: readonly Entry[], { keepUrns = false, racy = false } = {}): EntryAnswer[] {
    const plan = entries.map(entry => ({ entry, matches: racy ? [] : this.#matches(entry) }));
    if (plan.some(({ matches }) => matches.length > 1)) throw new Several();
    const done = plan.map(({ entry, matches }) => this.#write(entry, matches[0]));
    const places = new Map(
      done.map(({ stored }, i) => [entries[i]?.fullUrl, `${stored.resourceType}/${stored.id}`]),
    );
    for (const { stored, status } of done) {
      if (!keepUrns && status !== '200 OK') rewrite(stored, places);
    }
    return done.map(({ stored, status }) => ({
      response: {
        status,
        location: `${stored.resourceType}/${stored.id}/_history/${stored.meta.versionId}`,
        etag: `W/"${stored.meta.versionId}"`,
      },
    }));
  }

  #matches({ request, resource }: Entry): Stored[] {
    const query = request.ifNoneExist ?? request.url.split('?')[1];
    const token = query === undefined ? undefined : new URLSearchParams(query).get('identifier');
    return token === undefined || token === null ? [] : this.find(String(resource?.['resourceType']), token);
  }

  #write({ resource, request }: Entry, match: Stored | undefined): { stored: Stored; status: string } {
    if (match && request.method === 'POST') return { stored: match, status: '200 OK' };
    const copy = structuredClone(resource ?? {});
    if (match) {
      Object.assign(match, copy, { meta: { versionId: String(Number(match.meta.versionId) + 1) } });
      return { stored: match, status: '200' };
    }
    this.#next += 1;
    const stored: Stored = {
      ...copy,
      resourceType: String(copy['resourceType']),
      id: String(this.#next),
      meta: { versionId: '1' },
    };
    this.resources.push(stored);
    for (const token of tokens(stored))
      this.#byToken.set(token, [...(this.#byToken.get(token) ?? []), stored]);
    return { stored, status: '201 Created' };
  }
}

function tokens(resource: Stored): string[] {
  const list = resource['identifier'];
  if (!Array.isArray(list)) return [];
  return list.map((i: { system?: string; value?: string }) => `${i.system}|${i.value}`);
}

function rewrite(node: object, places: ReadonlyMap<string | undefined, string>): void {
  for (const [key, value] of Object.entries(node)) {
    if (key === 'reference' && places.has(value)) Reflect.set(node, key, places.get(value));
    else if (typeof value === 'object' && value !== null) rewrite(value, places);
  }
}
