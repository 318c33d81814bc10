import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import type { Target } from '../../../src/delivery/destination/session.js';
import { MemoryOutbox } from '../../../src/delivery/outbox/memory-outbox.js';
import type { Outbox } from '../../../src/delivery/outbox/outbox.js';
import { digestOf } from '../../../src/delivery/request/submission.js';
import { resume } from '../../../src/delivery/worker/gates.js';
import { drain, runWorker, type WorkerDeps } from '../../../src/delivery/worker/worker.js';
import { startCrashServer } from '../../e2e/crash/server.js';
import { type HostileServer, startHostile } from '../../support/hostile/server.js';
import { deps, destination, submissionText } from '../samples.js';

let servers: HostileServer[] = [];
beforeEach(async () => {
  servers = [await startHostile(), await startHostile()];
});
afterEach(async () => {
  for (const server of servers) await server.close();
});

let ids = 0;
const newId = () => {
  ids += 1;
  return `i${ids}`;
};

function setUp(more: Partial<WorkerDeps> = {}) {
  const outbox = new MemoryOutbox(newId);
  const d = deps();
  const worker: WorkerDeps = {
    outbox,
    targets: servers.map((server, i) => ({
      destination: destination(server.baseUrl, { name: `d${i}`, timeoutMs: 2_000, searchLagMs: 0 }),
    })),
    clock: d.clock,
    newId,
    random: () => 0.5,
    ...(d.sleep && { sleep: d.sleep }),
    ...more,
  };
  return { outbox, worker, d };
}

function put(
  outbox: Outbox,
  now: number,
  caseKey: string,
  patientKey: string,
  to = 'd0',
  change?: (t: string) => string,
) {
  const payload = submissionText(caseKey, change);
  return outbox.put({ destination: to, caseKey, patientKey, payload, digest: digestOf(payload) }, now);
}

describe('worker', () => {
  it('delivers everything, each case once, to each destination', async () => {
    const { outbox, worker, d } = setUp();
    for (let i = 0; i < 20; i += 1)
      for (const to of ['d0', 'd1']) await put(outbox, d.clock(), `c${i}`, `p${i % 5}`, to);
    expect(await drain(worker)).toMatchObject({ delivered: 40, again: 0, parked: 0 });
    for (const { store } of servers) expect([store.resources.length, store.doubles()]).toEqual([80, []]);
  });

  it('sends one case of a patient at a time', async () => {
    let running = 0;
    let most = 0;
    const fetch: typeof globalThis.fetch = async (url, init) => {
      if (init?.method !== 'POST') return globalThis.fetch(url, init);
      running += 1;
      most = Math.max(most, running);
      const answer = await globalThis.fetch(url, init);
      running -= 1;
      return answer;
    };
    const { outbox, worker, d } = setUp();
    for (let i = 0; i < 6; i += 1) await put(outbox, d.clock(), `c${i}`, 'one patient');
    await drain({ ...worker, targets: worker.targets.map(t => ({ ...t, fetch })) });
    expect(most).toBe(1);
    expect(servers[0]?.store.resources).toHaveLength(24);
  });

  it('holds an amendment back until its original has arrived, even when that fails three times', async () => {
    const { outbox, worker, d } = setUp();
    servers[0]?.plan('answers 503', 'drops the connection before it commits', 'answers 503');
    const bodies: string[] = [];
    const fetch: typeof globalThis.fetch = (url, init) => {
      if (init?.method === 'POST')
        bodies.push(String(init.body).includes('"L-18"') ? 'amendment' : 'original');
      return globalThis.fetch(url, init);
    };
    await put(outbox, d.clock(), 'c', 'p');
    const asUpdate = (t: string) =>
      t
        .replace('L-17', 'L-18')
        .replace(
          /"method": "POST", "url": "(\w+)", "ifNoneExist": "([^"]+)"/g,
          '"method": "PUT", "url": "$1?$2"',
        );
    await put(outbox, d.clock(), 'c', 'p', 'd0', asUpdate);
    for (let round = 0; round < 20; round += 1) {
      await drain({ ...worker, targets: worker.targets.map(t => ({ ...t, fetch })) });
      await d.sleep?.(60_000);
    }
    expect(bodies).toEqual(['original', 'original', 'original', 'original', 'amendment']);
    expect(servers[0]?.store.resources.find(r => r.resourceType === 'Device')?.['lotNumber']).toBe('L-18');
    expect((await outbox.list()).map(i => i.state)).toEqual(['delivered', 'delivered']);
  });

  it('does not let a slow destination hold up another', async () => {
    const { outbox, worker, d } = setUp({ lanes: 2 });
    for (let i = 0; i < 10; i += 1) {
      servers[0]?.plan('hangs without committing');
      await put(outbox, d.clock(), `s${i}`, `s${i}`, 'd0');
      await put(outbox, d.clock(), `f${i}`, `f${i}`, 'd1');
    }
    const order: string[] = [];
    await drain({ ...worker, onEvent: e => order.push(`${e.destination} ${e.came}`) });
    const lastFast = order.lastIndexOf('d1 delivered');
    const firstSlow = order.findIndex(o => o.startsWith('d0'));
    expect(order.filter(o => o === 'd1 delivered')).toHaveLength(10);
    expect(lastFast).toBeLessThan(firstSlow);
  });

  it('stops sending to a destination that fails five times, and tries it with one item later', async () => {
    const { outbox, worker, d } = setUp({ lanes: 1 });
    servers[0]?.plan(...Array.from({ length: 20 }, () => 'drops the connection before it commits' as const));
    for (let i = 0; i < 10; i += 1) await put(outbox, d.clock(), `c${i}`, `p${i}`);
    await drain(worker);
    const posts = () => servers[0]?.requests.filter(r => r.startsWith('POST')).length;
    expect(posts()).toBe(5);
    await d.sleep?.((await outbox.gate('d0')).closedUntil - d.clock());
    await drain(worker);
    expect(posts()).toBe(6);
  });

  it('leaves a paused destination alone until a person resumes it, without a flood of parked items', async () => {
    const { outbox, worker, d } = setUp({ lanes: 1 });
    servers[0]?.plan('answers 403');
    for (let i = 0; i < 5; i += 1) await put(outbox, d.clock(), `c${i}`, `p${i}`);
    await drain(worker);
    await d.sleep?.(3_600_000);
    await drain(worker);
    expect(servers[0]?.requests.filter(r => r.startsWith('POST'))).toHaveLength(1);
    expect(await outbox.depths()).toMatchObject([{ waiting: 5, parked: 0, unknown: 0 }]);
    await resume(outbox, 'd0');
    expect(await drain(worker)).toMatchObject({ delivered: 5 });
  });

  it('refuses the late write of a worker that lost its lease, and the case still arrives once', async () => {
    const { outbox, worker, d } = setUp();
    const slow: typeof globalThis.fetch = async (url, init) => {
      const answer = await globalThis.fetch(url, init);
      // The worker is away for longer than its lease, as on a suspended machine.
      if (init?.method === 'POST') await d.sleep?.(120_000);
      return answer;
    };
    const { id } = await put(outbox, d.clock(), 'c', 'p');
    const first = await drain({ ...worker, targets: worker.targets.map(t => ({ ...t, fetch: slow })) });
    expect(first).toMatchObject({ 'lease-lost': 1 });
    expect(await outbox.get(id)).toMatchObject({ state: 'delivered', receipt: { how: 'reconciled' } });
    expect(servers[0]?.store.resources).toHaveLength(4);
  });

  it.each([
    ['transaction', 1],
    ['batch', 2],
    ['single', 3],
  ] as const)(
    'sends nothing more when it wakes up after its lease and another worker has gone on (%s)',
    async (mode, write) => {
      const server = await startCrashServer(0);
      const { outbox, worker, d } = setUp({ lanes: 1 });
      const target = { destination: destination(server.baseUrl, { name: 'd0', mode }) };
      const { id } = await put(outbox, d.clock(), 'c', 'p');
      let writes = 0;
      let asleep = false;
      const sleepy: Target = {
        ...target,
        fetch: (url, init) => {
          if (init?.method !== undefined && init.method !== 'GET') writes += 1;
          return fetch(url, init);
        },
        // Fetches its token and is away for longer than its lease, as on a suspended machine.
        authorize: async () => {
          const begun = ((await outbox.get(id))?.attempts ?? 0) > 0;
          if (asleep || !begun || writes < write - 1) return undefined;
          asleep = true;
          await d.sleep?.(120_000);
          expect(await drain({ ...worker, targets: [target] })).toMatchObject({ delivered: 1 });
          return undefined;
        },
      };
      const first = await drain({ ...worker, targets: [sleepy] });
      expect([writes, first]).toMatchObject([write - 1, { 'lease-lost': 1 }]);
      expect([server.store.histories.length, server.store.doubles()]).toEqual([4, []]);
      await server.close();
    },
  );

  it('finishes what it sends when told to stop, and claims nothing more', async () => {
    const stop = new AbortController();
    const { outbox, worker, d } = setUp({ lanes: 1, stop: stop.signal });
    for (let i = 0; i < 5; i += 1) await put(outbox, d.clock(), `c${i}`, `p${i}`);
    await runWorker({ ...worker, onEvent: () => stop.abort() });
    expect(await outbox.depths()).toMatchObject([{ delivered: 1, waiting: 4, sending: 0 }]);
  });

  it('leaves "unknown" standing for what is cut off', async () => {
    const abort = new AbortController();
    const { outbox, worker, d } = setUp({ lanes: 1, abort: abort.signal, stop: abort.signal });
    servers[0]?.plan('commits, then hangs');
    const { id } = await put(outbox, d.clock(), 'c', 'p');
    setTimeout(() => abort.abort(), 100);
    await runWorker(worker);
    expect(await outbox.get(id)).toMatchObject({
      state: 'waiting',
      unknownSince: expect.any(Number),
      lastReason: 'stopped',
    });
  });

  it('tells nothing about patients in its events', async () => {
    const events: unknown[] = [];
    const { outbox, worker, d } = setUp({ onEvent: e => events.push(e) });
    servers[0]?.plan('refuses the content');
    await put(outbox, d.clock(), 'CANARY-CASE', 'CANARY-PATIENT');
    await drain(worker);
    expect(events).toHaveLength(1);
    expect(JSON.stringify(events)).not.toContain('CANARY');
  });
});
