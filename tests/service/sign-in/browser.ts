import { request as httpRequest, type IncomingHttpHeaders } from 'node:http';

export interface Seen {
  readonly status: number;
  readonly headers: IncomingHttpHeaders;
  readonly body: string;
  readonly url: string;
}

interface Asked {
  readonly method?: string;
  readonly headers?: Readonly<Record<string, string>>;
  readonly body?: string;
}

/** A browser as far as signing in needs one: cookies by name and `SameSite`, redirects, and what pages cannot set. */
export class Browser {
  readonly cookies = new Map<string, { value: string; strict: boolean }>();

  /** One request, without following where it leads. @param crossSite a navigation that a page of elsewhere began */
  ask(url: string, { method = 'GET', headers = {}, body }: Asked = {}, crossSite = false): Promise<Seen> {
    const cookie = [...this.cookies]
      .filter(([, { strict }]) => !(crossSite && strict))
      .map(([name, { value }]) => `${name}=${value}`)
      .join('; ');
    return new Promise((resolve, reject) => {
      const asked = httpRequest(
        url,
        { method, headers: { ...(cookie !== '' && { cookie }), ...headers } },
        answer => {
          const parts: Buffer[] = [];
          answer.on('data', (part: Buffer) => parts.push(part));
          answer.on('end', () => {
            for (const set of answer.headers['set-cookie'] ?? []) this.#keep(set);
            resolve({
              ...{ status: answer.statusCode ?? 0, headers: answer.headers, url },
              body: Buffer.concat(parts).toString('utf8'),
            });
          });
        },
      );
      asked.on('error', reject);
      asked.end(body);
    });
  }

  /** Goes where it is led, until something is shown. */
  async go(url: string, asked: Asked = {}, until: (url: string) => boolean = () => false): Promise<Seen> {
    let seen = await this.ask(url, asked);
    while (seen.status >= 300 && seen.status < 400) {
      const next = new URL(seen.headers.location ?? '', seen.url);
      if (until(next.href)) return { ...seen, url: next.href };
      seen = await this.ask(next.href, {}, next.origin !== new URL(seen.url).origin);
    }
    return seen;
  }

  /** As a page of the service asks. */
  fromPage(base: string, path: string, body?: object): Promise<Seen> {
    const { origin } = new URL(base);
    return this.ask(`${base}${path}`, {
      method: body ? 'POST' : 'GET',
      headers: {
        ...{ 'sec-fetch-site': 'same-origin' },
        ...(body && { origin, 'x-casetally-page': 'yes', 'content-type': 'application/json' }),
      },
      ...(body && { body: JSON.stringify(body) }),
    });
  }

  #keep(set: string): void {
    const [pair = '', ...rest] = set.split('; ');
    const [name = '', value = ''] = pair.split('=');
    if (rest.includes('Max-Age=0')) this.cookies.delete(name);
    else this.cookies.set(name, { value, strict: rest.includes('SameSite=Strict') });
  }
}
