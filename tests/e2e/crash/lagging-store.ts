/** A resource as the server keeps it. */
export interface Stored {
  readonly resourceType: string;
  readonly id: string;
  readonly meta: { readonly versionId: string };
  readonly [element: string]: unknown;
}

/** How a write asks for its resource. */
export interface Asked {
  readonly method: string;
  readonly url: string;
  readonly ifNoneExist?: string;
  readonly ifMatch?: string;
}

/** What came of one write. */
export interface Written {
  readonly status: '200' | '201';
  readonly location: string;
  readonly etag: string;
  readonly resource: Stored;
}

/** A write that the server does not carry out; in a transaction, none of it. */
export class Refused extends Error {
  readonly status: number;
  readonly code: string;

  constructor(status: number, code: string) {
    super(code);
    this.status = status;
    this.code = code;
  }
}

/**
 * Resources with all their versions. Searches, and the conditions of creates and updates with them, see what was
 * there a while ago; reads and If-Match see what is there.
 */
export class LaggingStore {
  readonly histories: { readonly at: number; readonly resource: Stored }[][] = [];
  readonly #lagMs: number;

  constructor(lagMs: number) {
    this.#lagMs = lagMs;
  }

  search(type: string, token: string): Stored[] {
    const until = Date.now() - this.#lagMs;
    return this.histories.flatMap(history => {
      const seen = history.findLast(({ at }) => at <= until)?.resource;
      return seen?.resourceType === type && tokensOf(seen).includes(token) ? [seen] : [];
    });
  }

  read(type: string, id: string): Stored | undefined {
    const history = this.#history(type, id);
    return history?.at(-1)?.resource;
  }

  /** Everything or nothing. */
  writeAll(
    entries: readonly { readonly fullUrl?: string; readonly resource: object; readonly asked: Asked }[],
  ): Written[] {
    const plan = entries.map(({ fullUrl, resource, asked }, i) => {
      const type = asked.url.split(/[/?]/)[0] ?? '';
      const query = asked.ifNoneExist ?? asked.url.split('?')[1];
      const token = new URLSearchParams(query).get('identifier');
      const [match, second] = token === null ? [] : this.search(type, token);
      if (second) throw new Refused(412, 'multiple-matches');
      const now = match && this.read(type, match.id);
      if (asked.ifMatch !== undefined && asked.ifMatch !== `W/"${now?.meta.versionId}"`)
        throw new Refused(412, 'conflict');
      return { fullUrl, resource, asked, type, now, id: now?.id ?? String(this.histories.length + 1 + i) };
    });
    const places = new Map(plan.map(({ fullUrl, type, id }) => [fullUrl, `${type}/${id}`]));
    return plan.map(({ resource, asked, type, now, id }): Written => {
      const writes = !now || asked.method === 'PUT';
      const versionId = now ? String(Number(now.meta.versionId) + (writes ? 1 : 0)) : '1';
      const stored: Stored = writes
        ? { ...rewritten(resource, places), resourceType: type, id, meta: { versionId } }
        : now;
      if (writes) {
        const history = this.#history(type, id);
        const version = { at: Date.now(), resource: stored };
        if (history) history.push(version);
        else this.histories.push([version]);
      }
      const location = `${type}/${id}/_history/${versionId}`;
      return { status: now ? '200' : '201', location, etag: `W/"${versionId}"`, resource: stored };
    });
  }

  /** Identifiers that stand at more than one resource. */
  doubles(): string[] {
    const seen = new Map<string, number>();
    for (const [first] of this.histories)
      for (const token of first ? tokensOf(first.resource) : []) {
        const key = `${first?.resource.resourceType} ${token}`;
        seen.set(key, (seen.get(key) ?? 0) + 1);
      }
    return [...seen].filter(([, count]) => count > 1).map(([key]) => key);
  }

  #history(type: string, id: string) {
    return this.histories.find(
      ([first]) => first?.resource.resourceType === type && first.resource.id === id,
    );
  }
}

function tokensOf({ identifier }: Stored): string[] {
  if (!Array.isArray(identifier)) return [];
  return identifier.map((i: { system?: string; value?: string }) => `${i.system}|${i.value}`);
}

function rewritten(resource: object, places: ReadonlyMap<string | undefined, string>): object {
  const text = JSON.stringify(resource, (key, value) =>
    key === 'reference' && places.has(value) ? places.get(value) : value,
  );
  return JSON.parse(text);
}
