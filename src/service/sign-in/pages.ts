import type { Language } from '../../findings/languages.js';
import { lexicon } from '../../findings/say.js';
import { PAGE } from '../api/page.js';
import { escaped } from '../api/page-words.js';
import type { Reply } from '../api/reply.js';

/** What a page says about a sign-in that came to nothing. */
export type Trouble = 'provider-away' | 'not-confirmed' | 'no-role' | 'not-begun' | 'too-often' | 'no-trail';

const STATUS: Readonly<Record<Trouble, number>> = {
  'provider-away': 503,
  'not-confirmed': 401,
  'no-role': 403,
  'not-begun': 400,
  'too-often': 429,
  'no-trail': 503,
};

/** A plain page that says why nobody was signed in, and leads to another try. Nothing of the request stands on it. */
export function troublePage(trouble: Trouble, language: Language, base: URL): Reply {
  const { say } = lexicon(language);
  const title = escaped(say('review.sign-in.trouble'));
  const to = (path: string) => escaped(new URL(path, base).href);
  return {
    status: STATUS[trouble],
    headers: { ...PAGE, 'content-type': 'text/html; charset=utf-8', 'content-language': language },
    body: `<!doctype html>
<html lang="${language}">
  <head>
    <meta charset="utf-8" />
    <meta name="viewport" content="width=device-width, initial-scale=1" />
    <title>${title} – Casetally</title>
    <link rel="icon" href="data:," />
    <link rel="stylesheet" href="${to('review/review.css')}" />
  </head>
  <body>
    <main>
      <h1>${title}</h1>
      <p>${escaped(say(`review.sign-in.${trouble}`))}</p>
      <p><a href="${to(`sign-in?language=${language}`)}">${escaped(say('review.sign-in.again'))}</a></p>
      <p><a href="${to('review')}">${escaped(say('review.title'))}</a></p>
    </main>
  </body>
</html>
`,
  };
}
