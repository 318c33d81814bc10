import type { NextFunction, Request, RequestHandler, Response } from 'express';
import type { Right } from '../../site/service.js';
import { type CookieRequest, callerByCookie, PAGE_HEADER, type People } from '../sign-in/people.js';
import type { WrongTries } from '../sign-in/wrong-tries.js';
import { type Audited, type Auditing, auditedAs, whoOf } from './auditing.js';
import { type Caller, callerOf, type KnownToken, lacking } from './guard.js';
import { type Reply, refusal } from './reply.js';

/** What is known of a request while it is answered (`response.locals`). */
export interface Known {
  /** Id of the request. */
  id: string;
  caller?: Caller;
  noted?: Reply['noted'];
  /** Refusals are problem details. */
  problems?: boolean;
  /** Refusals are FHIR and nothing else. */
  fhir?: boolean;
  /** Head of the audit trail after its last entry about this request. */
  audit?: string;
  /** Writes down how the request ended; gives what is to be answered. Called once, by whatever answers. */
  told?: (reply: Reply) => Promise<Reply>;
}

export const knownOf = (response: Response): Known => response.locals as Known;

export interface EntranceOptions {
  /** Undefined: none is asked for. */
  readonly tokens: readonly KnownToken[] | undefined;
  readonly people: People | undefined;
  readonly wrong: WrongTries;
  readonly auditing: Auditing;
  readonly send: (response: Response, reply: Reply) => Promise<void>;
}

/** What of a request says who it comes from. */
export const shownBy = (request: Request): CookieRequest => ({
  method: request.method,
  authorization: request.get('authorization'),
  host: request.get('host'),
  origin: request.get('origin'),
  fetchSite: request.get('sec-fetch-site'),
  cookie: request.get('cookie'),
  page: request.get(PAGE_HEADER),
});

/** Who asked too often with something wrong. */
export const tooOften = (seconds: number): Reply =>
  refusal(429, 'throttled', 'Too many wrong tries came from this address.', [], {
    'retry-after': String(seconds),
  });

/** Lets in whoever shows a token or is signed in; everybody else is told so before a byte of the body is read. */
export function entrance(options: EntranceOptions): RequestHandler {
  const { tokens, people, wrong, auditing, send } = options;
  return async (request, response, next) => {
    const known = knownOf(response);
    const shown = shownBy(request);
    // A program that shows a token is never taken for the person whose browser it borrows.
    if (shown.authorization === undefined && people) {
      const found = callerByCookie(shown, people);
      if (found && 'refused' in found) return send(response, found.refused);
      if (found) {
        known.caller = found.caller;
        return next();
      }
    }
    const address = request.ip ?? '';
    const wait = tokens && shown.authorization !== undefined ? wrong.wait(address) : undefined;
    if (wait !== undefined) return send(response, tooOften(wait));
    const found = callerOf(shown, tokens);
    if (!('refused' in found)) {
      known.caller = found.caller;
      return next();
    }
    if (tokens && shown.authorization !== undefined) {
      wrong.wrong(address);
      await auditing.write({
        ...{ kind: 'sign-in', who: { kind: 'nobody' }, from: request.ip, doing: 'token' },
        ...{ outcome: found.refused.status, request: known.id, about: [] },
      });
    }
    await send(response, found.refused);
  };
}

/** Looks whether the caller has the right, and writes a change down before it is begun. */
export function mayCome(
  route: { readonly path: string; readonly right?: Right; readonly audit?: Audited },
  { auditing, send }: EntranceOptions,
): RequestHandler {
  return async (request: Request, response: Response, next: NextFunction) => {
    const known = knownOf(response);
    const caller = known.caller ?? {};
    const kind = auditedAs(route, request.method);
    const why = lacking(caller, route.right);
    if (kind !== 'none') {
      const fact = {
        ...{ kind, who: whoOf(caller), from: request.ip, request: known.id },
        doing: `${request.method} ${route.path}`,
      };
      known.told = async reply => {
        const about = new Set([
          ...(reply.noted?.items ?? []),
          ...(reply.noted?.drafts ?? []),
          ...(reply.about ?? []),
        ]);
        // What an address names is an id once something was found under it; before, it may be anything.
        const { id } = request.params;
        if (reply.status < 400 && typeof id === 'string') about.add(id);
        const written = await auditing.write({ ...fact, outcome: reply.status, about: [...about] });
        if ('refused' in written) return reply.status < 400 ? written.refused : reply;
        if (written.head !== undefined) known.audit = written.head;
        return reply;
      };
      if (kind === 'change' && !why) {
        const begun = await auditing.write({ ...fact, outcome: 'begun', about: [] });
        if ('refused' in begun) {
          delete known.told;
          return send(response, begun.refused);
        }
      }
    }
    if (why) await send(response, why);
    else next();
  };
}
