import type { Resource } from '@medplum/fhirtypes';

/** Completes a search answer with what the library leaves out: addresses, modes, and links to itself and the next page. */
export function asSearchset(body: Resource, base: string, url: string): Resource {
  if (body.resourceType !== 'Bundle' || body.type !== 'searchset') return body;
  const entry = (body.entry ?? []).map(item => ({
    ...item,
    fullUrl: `${base}/${item.resource?.resourceType}/${item.resource?.id}`,
    search: { mode: 'match' as const },
  }));
  const next = nextPage(url, entry.length, body.total ?? entry.length);
  return {
    resourceType: 'Bundle',
    type: 'searchset',
    total: body.total ?? entry.length,
    link: [
      { relation: 'self', url: `${base}/${url}` },
      ...(next ? [{ relation: 'next', url: `${base}/${next}` }] : []),
    ],
    ...(entry.length > 0 && { entry }),
  };
}

function nextPage(url: string, shown: number, total: number): string | undefined {
  const [path = '', query = ''] = url.split(/\?(.*)/s);
  const params = new URLSearchParams(query);
  const from = Number(params.get('_offset') ?? 0) + shown;
  if (!params.has('_count') || shown === 0 || from >= total) return undefined;
  params.set('_offset', String(from));
  return `${path}?${params}`;
}
