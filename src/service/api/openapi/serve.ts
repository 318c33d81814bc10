import type { Express } from 'express';
import { PAGE } from '../page.js';
import { escaped } from '../page-words.js';

interface Operation {
  readonly summary: string;
  readonly description: string;
  readonly parameters?: readonly { readonly name: string; readonly in: string; readonly schema: object }[];
  readonly requestBody?: { readonly content: Readonly<Record<string, { readonly schema?: object }>> };
  readonly responses: Readonly<Record<string, object>>;
}

/**
 * GET /openapi.json and GET /api, the same for people. Neither holds anything of the site, and nobody needs a token.
 * They are made when they are first asked for.
 */
export function serveOpenApi(app: Express, version: string): void {
  let made: Promise<{ readonly json: string; readonly page: string }> | undefined;
  const both = async () => {
    const { openApiDocument } = await import('./document.js');
    const document = openApiDocument(version);
    return { json: JSON.stringify(document), page: pageOf(document as never, version) };
  };
  app.get('/openapi.json', async (_request, response) => {
    made ??= both();
    response.type('application/json; charset=utf-8').send((await made).json);
  });
  app.get('/api', async (_request, response) => {
    made ??= both();
    response
      .set(PAGE)
      .type('text/html; charset=utf-8')
      .send((await made).page);
  });
}

function pageOf(
  {
    paths,
    info,
  }: { readonly paths: Record<string, Record<string, Operation>>; readonly info: { description: string } },
  version: string,
): string {
  const rows = Object.entries(paths).flatMap(([path, operations]) =>
    Object.entries(operations).map(([method, operation]) => sectionOf(method, path, operation)),
  );
  return `<!doctype html>
<html lang="en-GB">
<head>
<meta charset="utf-8"><meta name="viewport" content="width=device-width, initial-scale=1">
<title>Addresses of the service – Casetally</title>
<link rel="icon" href="data:,"><link rel="stylesheet" href="review/review.css">
</head>
<body>
<header><h1>Addresses of the service</h1>
<p class="caution">${escaped(info.description)}</p>
<p>Casetally ${escaped(version)}. For programs: <a href="openapi.json">openapi.json</a> (OpenAPI 3.1).</p></header>
<main>${rows.join('\n')}</main>
</body>
</html>
`;
}

function sectionOf(method: string, path: string, operation: Operation): string {
  const { summary, description, parameters = [], requestBody } = operation;
  const asked = parameters.map(
    ({ name, in: where, schema }) =>
      `<li><code>${escaped(name)}</code> (${escaped(where)}) ${escaped('description' in schema ? String(schema.description) : '')}</li>`,
  );
  const body = Object.entries(requestBody?.content ?? {}).map(
    ([type, { schema }]) =>
      `<details><summary>${escaped(type)}</summary><pre>${escaped(JSON.stringify(schema ?? {}, undefined, 2))}</pre></details>`,
  );
  return `<section>
<h2><code>${method.toUpperCase()} ${escaped(path)}</code></h2>
<p>${escaped(summary)}. ${escaped(description)}</p>
${asked.length > 0 ? `<ul>${asked.join('')}</ul>` : ''}${body.join('')}
</section>`;
}
