import type { Request, Response } from 'express';
import type { Language } from '../../findings/languages.js';
import type { EntranceOptions } from '../api/entrance.js';
import type { FirstPage, ReviewPage } from '../api/page.js';
import type { Reply } from '../api/reply.js';
import type { People } from './people.js';
import type { Person } from './sessions.js';

export interface SignInOptions extends EntranceOptions {
  readonly people: People;
  readonly page: ReviewPage;
  readonly clock: () => number;
  /** Where people begin: the cases, or the review page of a service without drafts. */
  readonly first: FirstPage;
}

/** What the parts of signing in need of each other. */
export interface Desk extends SignInOptions {
  /** Writes a sign-in down. @returns why it cannot be, and nobody is signed in. */
  readonly written: (
    request: Request,
    response: Response,
    what: { readonly kind: 'sign-in' | 'sign-out'; readonly person?: Person; readonly outcome: number },
  ) => Promise<Reply | undefined>;
  readonly languageOf: (request: Request) => Language;
}
