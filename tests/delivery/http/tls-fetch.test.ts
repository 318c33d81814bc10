import { createServer, type Server } from 'node:https';
import { generate } from 'selfsigned';
import { afterEach, beforeAll, describe, expect, it } from 'vitest';
import { openTarget } from '../../../src/delivery/destination/open-target.js';
import { destinationSchema } from '../../../src/delivery/destination/schema.js';
import { tlsFetch } from '../../../src/delivery/http/tls-fetch.js';
import { accepted, deps, destination, sendSubmission, submissionText } from '../samples.js';

/* Certificates are made here, by the selfsigned package; what must be checked is RFC 9110, 4.3.4. */

type Pem = Awaited<ReturnType<typeof generate>>;
let right: Pem;
let wrongName: Pem;
let client: Pem;

const certificate = (name: string) =>
  generate([{ name: 'commonName', value: name }], {
    extensions: [
      { name: 'basicConstraints', cA: true },
      { name: 'subjectAltName', altNames: [{ type: 2, value: name }] },
    ],
  });

beforeAll(async () => {
  [right, wrongName, client] = await Promise.all([
    certificate('localhost'),
    certificate('elsewhere.example.org'),
    certificate('client'),
  ]);
});

let server: Server | undefined;
afterEach(() => new Promise(resolve => server?.close(resolve) ?? resolve(undefined)));

async function start(pem: Pem, mutual = false): Promise<{ url: string; posts: () => number }> {
  let posts = 0;
  const tls = mutual ? { requestCert: true, rejectUnauthorized: true, ca: client.cert } : {};
  const made = createServer({ key: pem.private, cert: pem.cert, ...tls }, (_request, response) => {
    posts += 1;
    response.setHeader('content-type', 'application/fhir+json');
    response.end(JSON.stringify(accepted()));
  });
  server = made;
  await new Promise<void>(resolve => {
    made.listen(0, resolve);
  });
  const address = made.address();
  const port = typeof address === 'object' && address ? address.port : 0;
  return { url: `https://localhost:${port}/fhir`, posts: () => posts };
}

const send = async (url: string, settings?: Parameters<typeof tlsFetch>[0]) =>
  sendSubmission(submissionText(), destination(url), deps(settings ? { fetch: tlsFetch(settings) } : {}));

describe('TLS', () => {
  it('does not trust a certificate of an unknown authority, and sends nothing', async () => {
    const { url, posts } = await start(right);
    const outcome = await send(url);
    expect(outcome).toMatchObject({
      state: 'destination-paused',
      verdict: { reason: 'certificate', next: 'pause' },
    });
    expect(posts()).toBe(0);
  });

  it('trusts the authority that is named', async () => {
    const { url } = await start(right);
    expect((await send(url, { ca: right.cert })).state).toBe('delivered');
  });

  it('never takes a certificate for another name, trusted or not', async () => {
    const { url, posts } = await start(wrongName);
    const outcome = await send(url, { ca: wrongName.cert });
    expect(outcome).toMatchObject({ state: 'destination-paused', verdict: { reason: 'certificate' } });
    expect(posts()).toBe(0);
  });

  it('shows its own certificate where one is asked for', async () => {
    const { url } = await start(right, true);
    const own = { certificate: client.cert, key: client.private };
    expect((await send(url, { ca: right.cert, ...own })).state).toBe('delivered');
  });

  it('fails without sending where one is asked for and none is set', async () => {
    const { url, posts } = await start(right, true);
    const outcome = await send(url, { ca: right.cert });
    expect(outcome.state).not.toBe('delivered');
    expect(posts()).toBe(0);
  });

  it('is set up from the settings of a destination, secrets by reference', async () => {
    const { url } = await start(right, true);
    const secrets: Record<string, string> = {
      'env:CA': right.cert,
      'env:CERT': client.cert,
      'env:KEY': client.private,
      'env:TOKEN': 't',
    };
    const settings = destinationSchema.parse({
      url,
      auth: { kind: 'bearer', token: 'env:TOKEN' },
      tls: { ca: 'env:CA', certificate: 'env:CERT', key: 'env:KEY' },
    });
    const { target } = await openTarget(
      'records',
      settings,
      reference => secrets[reference],
      () => 0,
    );
    if (!target?.fetch || !target.authorize) throw new Error('not opened');
    expect(await target.authorize(target.destination, false)).toBe('Bearer t');
    const { fetch, authorize } = target;
    expect(
      (await sendSubmission(submissionText(), target.destination, deps({ fetch, authorize }))).state,
    ).toBe('delivered');
  });

  it('says that a PEM is none, without quoting it', () => {
    const open = () => tlsFetch({ certificate: 'CANARY', key: 'CANARY' });
    expect(open).toThrow(expect.objectContaining({ code: 'settings-invalid' }));
    expect(open).not.toThrow('CANARY');
  });
});
