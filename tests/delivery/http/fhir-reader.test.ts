import { createServer, type RequestListener, type Server } from 'node:http';
import { gzipSync } from 'node:zlib';
import createDebug from 'debug';
import { afterEach, describe, expect, it, vi } from 'vitest';
import { fhirReader } from '../../../src/delivery/http/fhir-reader.js';
import { deps, destination } from '../samples.js';

let server: Server | undefined;
afterEach(async () => {
  createDebug.disable();
  vi.restoreAllMocks();
  server?.closeAllConnections();
  await new Promise(resolve => server?.close(resolve) ?? resolve(undefined));
});

async function reader(answer: RequestListener, more: object = {}, given = {}) {
  const made = createServer(answer);
  server = made;
  await new Promise<void>(resolve => {
    made.listen(0, '127.0.0.1', resolve);
  });
  const address = made.address();
  const port = typeof address === 'object' && address ? address.port : 0;
  return fhirReader(destination(`http://127.0.0.1:${port}/fhir`, more), deps(given));
}
const json =
  (body: object): RequestListener =>
  (_request, response) => {
    response.setHeader('content-type', 'application/fhir+json');
    response.setHeader('date', 'Thu, 14 Mar 2024 10:00:00 GMT');
    response.end(JSON.stringify(body));
  };

describe('reading through the library', () => {
  it('asks past caches, with token and request id, and keeps status and headers', async () => {
    let seen: { url?: string | undefined; headers: Record<string, unknown> } | undefined;
    const read = await reader(
      (request, response) => {
        seen = { url: request.url, headers: request.headers };
        json({ resourceType: 'Bundle', type: 'searchset' })(request, response);
      },
      {},
      { authorize: async () => 'Bearer CANARY' },
    );
    const reply = await read.search('Patient', { identifier: 'urn:a|1 &2' });
    expect(seen).toMatchObject({
      url: '/fhir/Patient?identifier=urn%3Aa%7C1+%262',
      headers: { authorization: 'Bearer CANARY', 'cache-control': 'no-cache', 'x-request-id': 'request-1' },
    });
    expect(reply).toMatchObject({
      exchange: { kind: 'answer', status: 200, headers: { date: 'Thu, 14 Mar 2024 10:00:00 GMT' } },
      body: { type: 'searchset' },
    });
  });

  it('reads no more than the bound, and nothing that grows when it is unpacked', async () => {
    const huge = { resourceType: 'Patient', id: 'x'.repeat(200_000) };
    const bound = { maxAnswerBytes: 100_000 };
    expect((await (await reader(json(huge), bound)).read('Patient', '1')).exchange.kind).toBe('fault');
    const packed: RequestListener = (_request, response) => {
      response.setHeader('content-encoding', 'gzip');
      response.end(gzipSync(JSON.stringify(huge)));
    };
    expect((await (await reader(packed, bound)).read('Patient', '1')).exchange.kind).toBe('fault');
  });

  it.each<[string, RequestListener, object]>([
    [
      'a redirect is not followed',
      (_q, r) => void r.writeHead(302, { location: 'http://127.0.0.2:9/' }).end(),
      { kind: 'answer', status: 302 },
    ],
    ['a removed one is told', (_q, r) => void r.writeHead(410).end('{}'), { kind: 'answer', status: 410 }],
    ['a page in HTML is no body', (_q, r) => void r.end('<html>'), { kind: 'answer', status: 200 }],
    ['a slow one ends', () => undefined, { kind: 'fault', reason: 'timeout' }],
    ['a dropped one is told', q => void q.socket.destroy(), { kind: 'fault', reason: 'reset' }],
  ])('%s', async (_what, answer, exchange) => {
    const reply = await (await reader(answer, { timeoutMs: 300 })).read('Patient', '1');
    expect(reply.exchange).toMatchObject(exchange);
    expect(reply.body?.['resourceType' as never]).toBeUndefined();
  });

  it('goes nowhere but to the destination itself, whatever an id or a page is called', async () => {
    const asked: (string | undefined)[] = [];
    const read = await reader((request, response) => {
      asked.push(request.url);
      json({ resourceType: 'Patient' })(request, response);
    });
    await read.read('Patient', '../../admin?x');
    expect(asked).toEqual(['/fhir/Patient/..%2F..%2Fadmin%3Fx']);
    expect(await read.follow('http://127.0.0.2:9/fhir?page=2')).toBeUndefined();
  });

  // The library prints addresses and bodies through `debug` when it is turned on, as by DEBUG=*.
  it('prints nothing, whoever turns on its lines', async () => {
    const lines: string[] = [];
    vi.spyOn(process.stderr, 'write').mockImplementation(text => {
      lines.push(String(text));
      return true;
    });
    createDebug.enable('*');
    const answer: RequestListener = (_q, r) => void r.writeHead(400).end('{"x":"CANARY"}');
    const read = await reader(answer, {}, { authorize: async () => 'Bearer CANARY' });
    const reply = await read.search('Patient', { identifier: 'urn:a|CANARY' });
    await read.metadata();
    expect(reply.exchange).toMatchObject({ kind: 'answer', status: 400 });
    expect(lines.join('')).not.toMatch(/CANARY|fhir-kit-client/);
    // Those of others go on.
    expect(createDebug.enabled('another')).toBe(true);
  });
});
