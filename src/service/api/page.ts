import { readdirSync, readFileSync } from 'node:fs';
import { extname, join } from 'node:path';
import { fileURLToPath } from 'node:url';
import type { Express, Response } from 'express';
import { CasetallyError } from '../../findings/errors.js';

/** Where the built review page lies, from `src` and from `dist` alike. */
const builtPage = fileURLToPath(new URL('../../../dist/web/', import.meta.url));

/** One file of the review page, as it is answered. */
export interface PageFile {
  readonly type: string;
  readonly body: string;
  /** What differs from the headers of all answers. */
  readonly headers: Readonly<Record<string, string>>;
}

/** The files by name. They hold no data and are the same for everyone. */
export type PageFiles = ReadonlyMap<string, PageFile>;

const TYPES: Readonly<Record<string, string>> = {
  '.html': 'text/html; charset=utf-8',
  '.css': 'text/css; charset=utf-8',
  '.js': 'text/javascript; charset=utf-8',
};

/**
 * The page runs its own script alone and talks to this service alone. `same-origin` for the referrer: with
 * `no-referrer` a browser may send `Origin: null` where the guard looks for this service's own.
 */
const PAGE = {
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

const OWN: Readonly<Record<string, Readonly<Record<string, string>>>> = {
  'review.html': PAGE,
  'frame.html': FRAME,
};

/**
 * Reads the page into memory, so that no request reaches the disk.
 *
 * @throws CasetallyError 'file-unreadable' where it was not built.
 */
export function loadPage(folder = builtPage): PageFiles {
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
  return new Map(
    names.flatMap((name): [string, PageFile][] => {
      const type = TYPES[extname(name)];
      return type === undefined
        ? []
        : [[name, { type, body: readFileSync(join(folder, name), 'utf8'), headers: OWN[name] ?? {} }]];
    }),
  );
}

/**
 * GET /review and the files below it; GET / leads a browser there. No token: a page cannot show one before it is there,
 * and there is nothing in it to keep from anyone. Addresses are relative, so that a proxy may put it under a path.
 */
export function servePage(app: Express, files: PageFiles): void {
  app.get('/', (request, response, next) => {
    if (request.accepts(['json', 'html']) === 'html') response.status(302).set('location', 'review').end();
    else next();
  });
  app.get('/review', (request, response, next) => {
    // Below `/review/` the relative addresses of the page would lead astray.
    if (request.path.endsWith('/')) response.status(302).set('location', '../review').end();
    else if (!give(response, files.get('review.html'))) next();
  });
  app.get('/review/:file', ({ params: { file } }, response, next) => {
    if (file === 'review.html' || !give(response, files.get(file))) next();
  });
}

function give(response: Response, file: PageFile | undefined): boolean {
  if (file) response.set(file.headers).type(file.type).send(file.body);
  return file !== undefined;
}
