import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { gzipSync } from 'node:zlib';
import express from 'express';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { loadPage, servePage } from '../../../src/service/api/page.js';
import { answerTo } from '../../support/serve.js';
import { listening } from '../sign-in/service.js';

/* How files of the pages are answered: packed where a browser takes that, and kept by their ETag (RFC 9110). */

const folder = mkdtempSync(join(tmpdir(), 'page-'));
const SCRIPT = `/* ${'long enough '.repeat(3_000)} */`;
let base: string;
let stop: () => Promise<unknown>;
beforeAll(async () => {
  writeFileSync(join(folder, 'case.html'), '<!doctype html><html lang="en-GB"><title>{{case.title}}</title>');
  writeFileSync(join(folder, 'case.js'), SCRIPT);
  writeFileSync(join(folder, 'case.js.gz'), gzipSync(SCRIPT));
  writeFileSync(join(folder, 'case.css'), 'main {}');
  const app = express();
  app.set('etag', false);
  servePage(app, loadPage('de', folder), 'case');
  ({ base, stop } = await listening(() => app));
});
afterAll(async () => {
  await stop();
  rmSync(folder, { recursive: true });
});

const bytes = async (path: string, headers: Record<string, string>) => {
  const answer = await fetch(`${base}${path}`, { headers });
  return { headers: answer.headers, status: answer.status, text: await answer.text() };
};

describe('a script', () => {
  it('comes packed to whoever takes that, and says on what it depends', async () => {
    const packed = await answerTo(`${base}/case/case.js`, { 'accept-encoding': 'gzip, br' });
    expect([packed.headers['content-encoding'], packed.headers['vary']]).toEqual(['gzip', 'accept-encoding']);
    expect(Number(packed.headers['content-length'])).toBe(gzipSync(SCRIPT).byteLength);
    // The client of this runtime unpacks by itself.
    expect((await bytes('/case/case.js', {})).text).toBe(SCRIPT);
    const plain = await answerTo(`${base}/case/case.js`, { 'accept-encoding': 'gzip;q=0' });
    expect([plain.headers['content-encoding'], plain.body]).toEqual([undefined, SCRIPT]);
    expect(plain.headers['vary']).toBe('accept-encoding');
  });

  it('is asked for again by its ETag, which differs from that of the packed one', async () => {
    const plain = await answerTo(`${base}/case/case.js`, { 'accept-encoding': 'identity' });
    const packed = await answerTo(`${base}/case/case.js`, { 'accept-encoding': 'gzip' });
    expect(plain.headers['cache-control']).toBe('no-cache');
    expect(plain.headers.etag).toMatch(/^"[\w-]{22}"$/);
    expect(packed.headers.etag).not.toBe(plain.headers.etag);
    const again = await answerTo(`${base}/case/case.js`, {
      'accept-encoding': 'gzip',
      'if-none-match': `"other", W/${packed.headers.etag}`,
    });
    expect([again.status, again.body]).toEqual([304, '']);
    expect(again.headers['vary']).toBe('accept-encoding');
    const other = await answerTo(`${base}/case/case.js`, { 'if-none-match': '"other"' });
    expect(other.status).toBe(200);
  });

  it('that lies there unpacked alone comes so', async () => {
    const style = await answerTo(`${base}/case/case.css`, { 'accept-encoding': 'gzip' });
    expect([style.headers['content-encoding'], style.body]).toEqual([undefined, 'main {}']);
    expect((await answerTo(`${base}/case/case.js.gz`)).status).toBe(404);
  });
});

describe('HTML', () => {
  it('has no ETag, since it is made anew in each language', async () => {
    const page = await answerTo(`${base}/case`, { 'if-none-match': '"other"' });
    expect([page.status, page.headers.etag, page.headers['content-language']]).toEqual([
      200,
      undefined,
      'de',
    ]);
    expect(page.body).toContain('<title>Fall</title>');
  });
});
