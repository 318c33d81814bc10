/** One resource as the small server keeps it: its text, so that digits stay. */
interface Kept {
  text: string;
  version: number;
}

/** A request as the small server saw it. */
export interface SeenRequest {
  readonly method: string;
  /** `Device/1`, `Device?identifier=…` */
  readonly address: string;
  readonly ifMatch?: string;
  readonly body?: string;
}

/**
 * A FHIR server as a function in place of `fetch`: searches by identifier, reads and updates with `If-Match`, texts kept
 * as they came. What a server may do wrong is done by `before`, whose answer goes out in place of its own.
 */
export class SmallServer {
  readonly requests: SeenRequest[] = [];
  readonly #kept = new Map<string, Kept>();
  /** May answer in place of the server, or change what it has first. */
  before: (request: SeenRequest) => Response | Promise<Response> | undefined = () => undefined;
  /** Called when a request was carried out, before it is answered. */
  after: (request: SeenRequest) => Promise<void> | undefined = () => undefined;
  /** False for a server that tells no version and does not look at If-Match. */
  versions = true;

  put(address: string, text: string): void {
    this.#kept.set(address, { text, version: (this.#kept.get(address)?.version ?? 0) + 1 });
  }

  delete(address: string): void {
    this.#kept.delete(address);
  }

  text(address: string): string {
    return this.#kept.get(address)?.text ?? '';
  }

  /** One element of a resource. */
  at(address: string, element: string): unknown {
    return JSON.parse(this.text(address))[element];
  }

  get writes(): SeenRequest[] {
    return this.requests.filter(({ method }) => method !== 'GET');
  }

  readonly fetch: typeof globalThis.fetch = async (input, init = {}) => {
    const url = new URL(String(input));
    const headers = new Headers(init.headers);
    const request: SeenRequest = {
      method: init.method ?? 'GET',
      address: decodeURIComponent(url.pathname.replace(/^\/fhir\//, '') + url.search),
      ...(headers.has('if-match') && { ifMatch: headers.get('if-match') ?? '' }),
      ...(typeof init.body === 'string' && { body: init.body }),
    };
    this.requests.push(request);
    const instead = await this.before(request);
    if (instead) return instead;
    const answer = this.#answer(request);
    await this.after(request);
    return answer;
  };

  #answer({ method, address, ifMatch, body }: SeenRequest): Response {
    const [type = '', criteria] = address.split('?');
    if (criteria !== undefined) {
      const [, value = ''] = criteria.split('|');
      const found = [...this.#kept].filter(
        ([at, { text }]) => at.startsWith(`${type}/`) && text.includes(value),
      );
      const entry = found.map(([at]) => `{"resource":${this.#shown(at)}}`);
      return fhir(200, `{"resourceType":"Bundle","type":"searchset","entry":[${entry.join(',')}]}`);
    }
    const kept = this.#kept.get(address);
    if (!kept) return fhir(404, '');
    if (method === 'PUT') {
      if (this.versions && ifMatch !== undefined && ifMatch !== `W/"${kept.version}"`) return fhir(412, '');
      const { meta: _meta, ...rest } = JSON.parse(body ?? '') as Record<string, unknown>;
      if (Object.keys(rest).length === 0) return fhir(400, '');
      this.put(address, (body ?? '').replace(/"meta":\{"versionId":"\d+"\},?/, ''));
    }
    const { version } = this.#kept.get(address) ?? kept;
    return fhir(200, this.#shown(address), this.versions ? { etag: `W/"${version}"` } : {});
  }

  #shown(address: string): string {
    const { text, version } = this.#kept.get(address) ?? { text: '{}', version: 0 };
    return this.versions ? text.replace('{', `{"meta":{"versionId":"${version}"},`) : text;
  }
}

export const fhir = (status: number, body: string, headers: Record<string, string> = {}): Response =>
  new Response(body === '' ? null : body, {
    status,
    headers: { 'content-type': 'application/fhir+json', ...headers },
  });
