import type { Express, Request, Response } from 'express';
import { knownOf, shownBy } from '../api/entrance.js';
import { cookieOf, cookiesOf } from './cookies.js';
import type { Desk } from './desk.js';
import { type Trouble, troublePage } from './pages.js';
import { callerByCookie, type People } from './people.js';
import { returnTo } from './return-to.js';
import { digestOf, secretText } from './sessions.js';
import { PATIENCE_MS } from './under-way.js';
import { WrongTries } from './wrong-tries.js';

/** GET /sign-in, which leads to the provider, and GET /sign-in/back, to which the provider leads back. */
export function serveProvider(
  app: Express,
  desk: Desk,
  { provider, underWays, base }: Extract<People['way'], { kind: 'provider' }>,
): void {
  const { people, send, written, clock } = desk;
  const wrong = new WrongTries(clock);
  const cookies = cookiesOf(base);
  const said = (request: Request, response: Response, trouble: Trouble) =>
    send(response, troublePage(trouble, desk.languageOf(request), base));

  app.get('/sign-in', async (request, response) => {
    const had = cookieOf(request.get('cookie'), cookies.browser);
    // One for all tabs of a browser, as long as one of them is under way; never one that was not given out here.
    const browser = had !== undefined && underWays.knows(digestOf(had)) ? had : secretText();
    const found = callerByCookie(shownBy(request), people);
    const one = {
      ...{ nonce: secretText(), verifier: secretText(), browser: digestOf(browser) },
      to: returnTo(request.query['to'], base, desk.first),
      fresh: request.query['fresh'] === 'yes',
      ...(found && 'key' in found && { former: found.key }),
    };
    const state = underWays.begin(one);
    const to = await provider.begin(one, state);
    if (!to) return said(request, response, 'provider-away');
    response
      .status(302)
      .set({ location: to.href, 'set-cookie': cookies.set(cookies.browser, browser, PATIENCE_MS / 1_000) })
      .end();
  });

  app.get('/sign-in/back', async (request, response) => {
    const address = request.ip ?? '';
    const failed = async (trouble: Trouble, outcome: number) => {
      // What is right is never held up by what others behind the same address do; only entries are bounded.
      if (wrong.wait(address) !== undefined) return said(request, response, 'too-often');
      wrong.wrong(address);
      await written(request, response, { kind: 'sign-in', outcome });
      await said(request, response, trouble);
    };
    const { state } = request.query;
    const browser = cookieOf(request.get('cookie'), cookies.browser);
    const one =
      typeof state === 'string' && browser !== undefined
        ? underWays.take(state, digestOf(browser))
        : undefined;
    if (!one || typeof state !== 'string') return failed('not-begun', 400);
    const query = request.originalUrl.slice(request.originalUrl.indexOf('?'));
    const confirmed = await provider.confirm(query, state, one);
    if (confirmed === 'provider-away') return said(request, response, confirmed);
    if (typeof confirmed === 'string') return failed(confirmed, confirmed === 'no-role' ? 403 : 401);
    const { person, shownAt } = confirmed;
    const untold = await written(request, response, { kind: 'sign-in', person, outcome: 302 });
    if (untold) return said(request, response, 'no-trail');
    const id = people.sessions.open(person, one.browser, shownAt, one.former);
    knownOf(response).caller = { person };
    response
      .status(302)
      .set({
        location: one.to,
        'set-cookie': cookies.set(cookies.session, id, people.sessions.secondsLeft(id)),
      })
      .end();
  });
}
