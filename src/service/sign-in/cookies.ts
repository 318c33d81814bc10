/** The cookies of a service: names that no other one on the same machine has, and what a browser may do with them. */
export interface Cookies {
  readonly session: string;
  readonly browser: string;
  readonly set: (name: string, value: string, seconds: number) => string;
  readonly clear: (name: string) => string;
}

/**
 * Over https both have the prefix `__Host-`: no other name under the domain can set them (RFC 6265bis, 4.1.3.2). Over
 * plain http, on this machine alone, names carry the port, since cookies of one machine are shared by all its ports.
 *
 * The session is `SameSite=Strict`: only the pages of this service ask with it, so a link from elsewhere need not
 * bring it along, and no page of elsewhere can. What a browser is known by while it signs in is `Lax`, since it must
 * come along when the provider, a site of elsewhere, leads the browser back.
 */
export function cookiesOf(own: URL): Cookies {
  const secure = own.protocol === 'https:';
  const port = own.port === '' ? '' : `-${own.port}`;
  const named = (what: string) => (secure ? `__Host-casetally-${what}` : `casetally-${what}${port}`);
  const [session, browser] = [named('session'), named('browser')];
  const rest = (name: string) =>
    `; Path=/; HttpOnly${secure ? '; Secure' : ''}; SameSite=${name === session ? 'Strict' : 'Lax'}`;
  return {
    session,
    browser,
    set: (name, value, seconds) => `${name}=${value}; Max-Age=${Math.floor(seconds)}${rest(name)}`,
    clear: name => `${name}=; Max-Age=0${rest(name)}`,
  };
}

/** The value of a cookie; undefined where it is not there, is there twice, or is nothing that this service gave out. */
export function cookieOf(header: string | undefined, name: string): string | undefined {
  const values = (header ?? '').split(';').flatMap(pair => {
    const at = pair.indexOf('=');
    return at > 0 && pair.slice(0, at).trim() === name ? [pair.slice(at + 1).trim()] : [];
  });
  const [value] = values;
  return values.length === 1 && value !== undefined && /^[\w-]{43}$/.test(value) ? value : undefined;
}
