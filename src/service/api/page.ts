import { createHash } from 'node:crypto';
import { existsSync, readdirSync, readFileSync } from 'node:fs';
import { extname, join } from 'node:path';
import { fileURLToPath } from 'node:url';
import type { Express, Request, Response } from 'express';
import { CasetallyError } from '../../findings/errors.js';
import { type Language, languageOf, languages } from '../../findings/languages.js';
import { inWords } from './page-words.js';

/** Where the built review page lies, from `src` and from `dist` alike. */
const builtPage = fileURLToPath(new URL('../../../dist/web/', import.meta.url));

/** One file of the review page, as it is answered. */
export interface PageFile {
  readonly type: string;
  readonly body: string;
  /** The same packed by gzip, where it lies beside it. */
  readonly packed?: Buffer;
  /** For what a browser may keep and ask again for. */
  readonly etag?: string;
  /** What differs from the headers of all answers. */
  readonly headers: Readonly<Record<string, string>>;
}

/** The page that a browser is led to which names none. */
export type FirstPage = 'case' | 'review';

/** The review page: files that hold no data and are the same for everyone who reads the same language. */
export interface ReviewPage {
  /** That of the site. */
  readonly language: Language;
  /** A file by name, in a language where it has words. */
  file(name: string, language: Language): PageFile | undefined;
}

const TYPES: Readonly<Record<string, string>> = {
  '.html': 'text/html; charset=utf-8',
  '.css': 'text/css; charset=utf-8',
  '.js': 'text/javascript; charset=utf-8',
};

/**
 * The page runs its own script alone and talks to this service alone. `same-origin` for the referrer: with
 * `no-referrer` a browser may send `Origin: null` where the guard looks for this service's own.
 */
export const PAGE = {
  'content-security-policy': [
    "default-src 'none'",
    "script-src 'self'",
    "style-src 'self'",
    "connect-src 'self'",
    "img-src 'self' data: blob:",
    "frame-src 'self'",
    "frame-ancestors 'none'",
    "base-uri 'none'",
    "form-action 'none'",
  ].join('; '),
  'referrer-policy': 'same-origin',
  'cross-origin-opener-policy': 'same-origin',
};

/**
 * The empty document in which a report is shown. A report brings its own style in a `<style>`, which the page's policy
 * forbids, and a frame made of text (srcdoc, data: or blob:) takes over the policy of the page. So the frame is loaded
 * from an address of its own, with a policy of its own: style may stand inside, nothing may run (`sandbox` without
 * allow-scripts, here and on the frame), nothing is fetched. `allow-same-origin` lets the page put the report in.
 */
const FRAME = {
  'content-security-policy': [
    "default-src 'none'",
    "style-src 'unsafe-inline'",
    'img-src data:',
    "frame-ancestors 'self'",
    "base-uri 'none'",
    "form-action 'none'",
    'sandbox allow-same-origin',
  ].join('; '),
  'x-frame-options': 'SAMEORIGIN',
};

/** The case page works on records in a thread of its own, which is a script of this service like the page's. */
const CASE = { ...PAGE, 'content-security-policy': `${PAGE['content-security-policy']}; worker-src 'self'` };

/** What keeps the page for when the service is away: it answers for the page itself, which is not below it. */
const OFFLINE = {
  'content-security-policy': "default-src 'none'; connect-src 'self'",
  'service-worker-allowed': '../case',
};

const OWN: Readonly<Record<string, Readonly<Record<string, string>>>> = {
  'case.html': CASE,
  'case-offline.js': OFFLINE,
  'review.html': PAGE,
  'sign-in.html': PAGE,
  'frame.html': FRAME,
};

/**
 * Reads the page into memory, so that no request reaches the disk.
 *
 * @param own the language of the site
 * @throws CasetallyError 'file-unreadable' where it was not built.
 */
export function loadPage(own: Language, folder = builtPage): ReviewPage {
  let names: string[];
  try {
    names = readdirSync(folder);
  } catch (cause) {
    throw new CasetallyError(
      'file-unreadable',
      `the review page is not in ${folder}: build it with npm run build.`,
      { cause },
    );
  }
  const files = new Map(
    names.flatMap((name): [string, (language: Language) => PageFile][] => {
      const type = TYPES[extname(name)];
      if (type === undefined) return [];
      const text = readFileSync(join(folder, name), 'utf8');
      const plain = { type, body: text, headers: OWN[name] ?? {} };
      if (extname(name) !== '.html') {
        const packed = `${join(folder, name)}.gz`;
        const kept: PageFile = {
          ...plain,
          ...(existsSync(packed) && { packed: readFileSync(packed) }),
          etag: `"${createHash('sha256').update(text).digest('base64url').slice(0, 22)}"`,
        };
        return [[name, () => kept]];
      }
      const written = new Map(
        languages.map(language => [language, { ...plain, body: inWords(text, language, own) }]),
      );
      return [[name, language => written.get(language) ?? plain]];
    }),
  );
  return { language: own, file: (name, language) => files.get(name)?.(language) };
}

/**
 * GET /review, GET /case and the files below them; GET / leads a browser to the first page. No token: a page cannot show one before it is there,
 * and there is nothing in it to keep from anyone. Addresses are relative, so that a proxy may put it under a path.
 * `?language=` is that of the page; without it, or with one that is not there, it is that of the site.
 */
export function servePage(app: Express, page: ReviewPage, first: FirstPage): void {
  const give = (request: Request, response: Response, name: string): boolean => {
    const tag = request.query['language'];
    const language = (typeof tag === 'string' ? languageOf(tag) : undefined) ?? page.language;
    const file = page.file(name, language);
    if (file) {
      if (name.endsWith('.html')) response.set('content-language', language);
      response.set(file.headers).type(file.type);
      sendFile(request, response, file);
    }
    return file !== undefined;
  };
  app.get('/', (request, response, next) => {
    if (request.accepts(['json', 'html']) === 'html') response.status(302).set('location', first).end();
    else next();
  });
  app.get('/case', (request, response, next) => {
    if (request.path.endsWith('/')) response.status(302).set('location', '../case').end();
    else if (!give(request, response, 'case.html')) next();
  });
  app.get('/case/:file', (request, response, next) => {
    const { file } = request.params;
    if (file.endsWith('.html') || !give(request, response, file)) next();
  });
  app.get('/review', (request, response, next) => {
    // Below `/review/` the relative addresses of the page would lead astray.
    if (request.path.endsWith('/')) response.status(302).set('location', '../review').end();
    else if (!give(request, response, 'review.html')) next();
  });
  app.get('/review/:file', (request, response, next) => {
    const { file } = request.params;
    // Their addresses are relative to where they belong.
    if ((file.endsWith('.html') && file !== 'frame.html') || !give(request, response, file)) next();
  });
}

/** Scripts and styles are kept by browsers, who ask each time whether they are still the same; HTML is not. */
function sendFile(request: Request, response: Response, { body, packed, etag }: PageFile): void {
  if (packed) response.vary('accept-encoding');
  const isPacked = packed !== undefined && request.acceptsEncodings(['gzip', 'identity']) === 'gzip';
  if (etag !== undefined) {
    // A packed answer is another one, to whoever compares them (RFC 9110, 8.8.3).
    const tag = isPacked ? etag.replace(/"$/, '-gzip"') : etag;
    response.set({ etag: tag, 'cache-control': 'no-cache' });
    const known = (request.get('if-none-match') ?? '').split(',').map(one => one.trim().replace(/^W\//, ''));
    if (known.includes(tag)) {
      response.status(304).end();
      return;
    }
  }
  if (isPacked) response.set('content-encoding', 'gzip').send(packed);
  else response.send(body);
}
