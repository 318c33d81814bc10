import express, { type Express, type Request } from 'express';
import { z } from 'zod';
import { languageOf } from '../../findings/languages.js';
import { plainName, rightsOfRoles, roles } from '../../site/roles.js';
import { whoOf } from '../api/auditing.js';
import { knownOf, shownBy, tooOften } from '../api/entrance.js';
import { type Reply, refusal, reply } from '../api/reply.js';
import { cookieOf, cookiesOf } from './cookies.js';
import type { Desk, SignInOptions } from './desk.js';
import { type ByCookie, baseOf, callerByCookie, isOwn, type People } from './people.js';
import { serveProvider } from './provider-routes.js';
import { returnTo } from './return-to.js';
import type { Person } from './sessions.js';

const onceAsked = z.strictObject({ code: z.string().max(200), name: z.string().max(1_000) });
/** Bytes of what is sent to sign in or out. */
const MOST = 10_000;

/** What a person signed in by a link is told of how, in `/me` and nowhere as a claim about who they are. */
const TYPED = 'typed on this machine, not verified';

/**
 * The addresses of signing in, in front of the guard: GET /sign-in, GET /sign-in/back (provider), GET and POST
 * /sign-in/once and POST /sign-in/link (this machine), POST /sign-out, GET /me.
 */
export function serveSignIn(app: Express, options: SignInOptions): void {
  const { people, page, wrong, auditing, send, tokens } = options;
  const json = express.json({ type: 'application/json', limit: MOST });
  const desk: Desk = {
    ...options,
    async written(request, response, { kind, person, outcome }) {
      const known = knownOf(response);
      const told = await auditing.write({
        ...{ kind, who: whoOf(person ? { person } : {}), from: request.ip, outcome },
        ...{ doing: people.way.kind, request: known.id, about: [] },
      });
      if ('refused' in told) return told.refused;
      if (told.head !== undefined) known.audit = told.head;
      if (person) known.caller = { person };
      return undefined;
    },
    languageOf(request) {
      const tag = request.query['language'];
      return (typeof tag === 'string' ? languageOf(tag) : undefined) ?? page.language;
    },
  };
  const byCookie = (request: Request) => callerByCookie(shownBy(request), people);

  app.get('/me', async (request, response) => {
    const found = byCookie(request);
    if (found && 'refused' in found) return send(response, found.refused);
    await send(response, reply(200, found ? shown(found) : nobody(people, tokens ?? [])));
  });

  app.post('/sign-out', async (request, response) => {
    const found = byCookie(request);
    if (found && 'refused' in found) return send(response, found.refused);
    const base = baseOf(people, request.get('host'));
    if (!found || !base) return send(response, reply(200, { signedOut: true }));
    people.sessions.end(found.key);
    const { way } = people;
    const at = way.kind === 'provider' ? way.provider.signOutAt() : undefined;
    // Whoever wants to leave leaves, whether it can be written down or not.
    await desk.written(request, response, { kind: 'sign-out', person: found.session.person, outcome: 200 });
    const cookies = cookiesOf(base);
    await send(response, {
      ...reply(200, { signedOut: true, ...(at !== undefined && { providerSignOut: at }) }),
      headers: { 'set-cookie': cookies.clear(cookies.session) },
    });
  });

  if (people.way.kind === 'provider') {
    serveProvider(app, desk, people.way);
    return;
  }
  const { link } = people.way;

  app.get('/sign-in', (request, response) => {
    const base = baseOf(people, request.get('host'));
    if (!base) return void send(response, elsewhere());
    const language = desk.languageOf(request);
    response
      .status(302)
      .set('location', new URL(`sign-in/once?language=${language}`, base).href)
      .end();
  });
  app.get('/sign-in/once', (request, response) => {
    const language = desk.languageOf(request);
    const file = page.file('sign-in.html', language);
    if (!file) return void send(response, refusal(404, 'not-found', 'The page was not built.'));
    response
      .set({ ...file.headers, 'content-language': language })
      .type(file.type)
      .send(file.body);
  });

  /** Only a page of this service, opened on this machine and through nobody in between, may use a link or ask for one. */
  const hindered = (request: Request): Reply | undefined => {
    const base = baseOf(people, request.get('host'));
    const passedOn = request.get('x-forwarded-for') ?? request.get('forwarded');
    if (!base || passedOn !== undefined || !isFromHere(request) || !isOwn(shownBy(request), base))
      return elsewhere();
    const wait = wrong.wait(request.ip ?? '');
    return wait === undefined ? undefined : tooOften(wait);
  };

  app.post('/sign-in/link', async (request, response) => {
    const no = hindered(request);
    if (no) return send(response, no);
    // Counted as a try, so that a script cannot fill the terminal.
    wrong.wrong(request.ip ?? '');
    link.renew();
    await send(response, reply(200, { printed: true }));
  });

  app.post('/sign-in/once', json, async (request, response) => {
    const no = hindered(request);
    if (no) return send(response, no);
    const read = onceAsked.safeParse(request.body);
    const name = read.success ? plainName(read.data.name) : undefined;
    const base = baseOf(people, request.get('host'));
    if (!read.success || name === undefined || !base)
      return send(response, refusal(400, 'invalid', 'Send {"code": that of the link, "name": your name}.'));
    if (!link.take(read.data.code)) {
      wrong.wrong(request.ip ?? '');
      await desk.written(request, response, { kind: 'sign-in', outcome: 401 });
      return send(response, refusal(401, 'login', 'This link was used already, is too old, or is none.'));
    }
    const person: Person = { name, roles };
    const untold = await desk.written(request, response, { kind: 'sign-in', person, outcome: 200 });
    if (untold) return send(response, untold);
    const cookies = cookiesOf(base);
    const former = people.sessions.find(cookieOf(request.get('cookie'), cookies.session))?.key;
    const id = people.sessions.open(person, `link ${knownOf(response).id}`, options.clock(), former);
    const seconds = people.sessions.secondsLeft(id);
    await send(response, {
      ...reply(200, { to: returnTo(undefined, base, options.first) }),
      headers: { 'set-cookie': cookies.set(cookies.session, id, seconds) },
    });
  });
}

const elsewhere = () =>
  refusal(403, 'forbidden', 'Signing in by a link is for browsers on this machine alone.');

function isFromHere(request: Request): boolean {
  return /^(?:::ffff:)?127\.|^::1$/.test(request.socket.remoteAddress ?? '');
}

/** GET /me of somebody who is signed in. */
function shown({ session }: ByCookie): object {
  const { person, signedInAt, freshUntil, until } = session;
  const time = (ms: number) => new Date(ms).toISOString();
  return {
    signedIn: true,
    name: person.name,
    verified: person.verified !== undefined,
    how: person.verified?.issuer ?? TYPED,
    roles: person.roles,
    rights: rightsOfRoles(person.roles),
    signedInAt: time(signedInAt),
    freshUntil: time(freshUntil),
    until: time(until),
  };
}

/** GET /me of anybody else: how they may come in. */
const nobody = ({ way }: People, tokens: readonly unknown[]) => ({
  signedIn: false,
  signIn: way.kind,
  tokens: tokens.length > 0,
});
