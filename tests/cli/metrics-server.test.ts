import { describe, expect, it } from 'vitest';
import { serveMetrics } from '../../src/cli/metrics-server.js';
import { MemoryOutbox } from '../../src/delivery/outbox/memory-outbox.js';
import { deliveryMetrics } from '../../src/delivery/telemetry/metrics.js';

const metrics = deliveryMetrics(new MemoryOutbox(() => 'id'), () => 0);

describe('the metrics server', () => {
  it('answers a supervisor, on loopback', async () => {
    const server = await serveMetrics(0, { metrics, ready: async () => true });
    const get = (path: string, method = 'GET') => fetch(`http://127.0.0.1:${server.port}${path}`, { method });
    try {
      expect((await get('/healthz')).status).toBe(200);
      expect((await get('/readyz')).status).toBe(200);
      expect((await get('/metrics', 'POST')).status).toBe(405);
      expect((await get('/')).status).toBe(404);
      const figures = await get('/metrics');
      expect(figures.headers.get('content-type')).toMatch(/^text\/plain; version=0\.0\.4/);
      expect(await figures.text()).toContain('# TYPE casetally_outbox_items gauge');
    } finally {
      await server.close();
    }
  });

  it.each([
    ['says so', async () => false],
    ['fails', () => Promise.reject(new Error('a disk'))],
  ])('is alive but not ready when the outbox %s', async (_what, ready) => {
    const server = await serveMetrics(0, { metrics, ready });
    try {
      expect((await fetch(`http://127.0.0.1:${server.port}/healthz`)).status).toBe(200);
      const answer = await fetch(`http://127.0.0.1:${server.port}/readyz`);
      expect([answer.status, await answer.text()]).toEqual([503, 'not ready\n']);
    } finally {
      await server.close();
    }
  });

  it('says when the port is taken', async () => {
    const first = await serveMetrics(0, { metrics, ready: async () => true });
    try {
      await expect(serveMetrics(first.port, { metrics, ready: async () => true })).rejects.toThrow(
        /port \d+/,
      );
    } finally {
      await first.close();
    }
  });
});
