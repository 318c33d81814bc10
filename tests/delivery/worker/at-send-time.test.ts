import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import type { Destination } from '../../../src/delivery/destination/destination.js';
import { MemoryOutbox } from '../../../src/delivery/outbox/memory-outbox.js';
import type { Gate, NewItem } from '../../../src/delivery/outbox/outbox.js';
import { digestOf } from '../../../src/delivery/request/submission.js';
import { drain, type WorkerDeps } from '../../../src/delivery/worker/worker.js';
import { type RunningSandbox, startSandbox } from '../../../src/service/sandbox/server.js';
import { corrected, deps, destination, SYSTEM, submissionText } from '../samples.js';

let server: RunningSandbox;
beforeAll(async () => {
  server = await startSandbox();
});
afterAll(() => server.close());

const drop = () => {
  throw new TypeError('x', { cause: { code: 'ECONNRESET' } });
};
const isWrite = (init?: RequestInit) => init?.method === 'POST' || init?.method === 'PUT';

/** A worker with time moved on by hand; `fetch` may be changed between runs. */
function setUp(caseId: string, settings: Partial<Destination> = {}) {
  const d = deps();
  const outbox = new MemoryOutbox(d.newId);
  const way = { fetch: globalThis.fetch };
  const worker: WorkerDeps = {
    outbox,
    targets: [
      {
        destination: destination(server.baseUrl, settings),
        fetch: (url, init) => way.fetch(url, init),
      },
    ],
    clock: d.clock,
    newId: d.newId,
    random: () => 0.5,
    ...(d.sleep && { sleep: d.sleep }),
  };
  const put = (payload: string, more: Partial<NewItem> = {}) =>
    outbox.put(
      {
        destination: 'test server',
        caseKey: caseId,
        patientKey: 'p',
        payload,
        digest: digestOf(payload),
        ...more,
      },
      d.clock(),
    );
  const states = async () =>
    (await outbox.list()).map(i => (i.state === 'waiting' ? i.state : (i.parked?.reason ?? i.state)));
  const later = async (ms: number) => {
    await d.sleep?.(ms);
    await drain(worker);
  };
  return { outbox, worker, way, put, states, later, run: () => drain(worker) };
}

const heldOf = async (caseId: string, type: string, part: string) => {
  const criteria = encodeURIComponent(`${SYSTEM}|${caseId}-${part}`);
  const found = (await (await fetch(`${server.baseUrl}/${type}?identifier=${criteria}`)).json()) as {
    entry?: { resource: { lotNumber?: string } }[];
  };
  return (found.entry ?? []).map(e => e.resource);
};

describe('what is decided when a case is sent', () => {
  it('two lost answers in a row, at a server whose search lags, make one of each', async () => {
    const id = 'lag';
    const { way, put, states, later, run } = setUp(id, { searchLagMs: 60_000 });
    // The first two sends are cut off: one before it took effect, one after. Searches see nothing for long.
    let posts = 0;
    let stale = true;
    way.fetch = async (url, init) => {
      if (init?.method === 'POST') {
        posts += 1;
        if (posts === 1) return drop();
        // Its conditional creates look into the same index as its searches.
        const body =
          stale && posts > 2 ? String(init.body).replace(/, "ifNoneExist": "[^"]+"/g, '') : init.body;
        const answer = await fetch(url, { ...init, ...(body !== undefined && { body: body ?? null }) });
        return posts === 2 ? drop() : answer;
      }
      if (stale && String(url).includes('identifier='))
        return Response.json({ resourceType: 'Bundle', type: 'searchset' });
      return fetch(url, init);
    };
    await put(submissionText(id));
    await run();
    // The lag has passed since the first send: it is believed to have had no effect, and sent again.
    await later(61_000);
    expect(posts).toBe(2);
    // Long after the first, soon after the second send: nothing is believed yet.
    await later(30_000);
    stale = false;
    await later(31_000);
    await later(61_000);
    expect([posts, await states()]).toEqual([2, ['delivered']]);
    expect(await heldOf(id, 'Procedure', 'procedure')).toHaveLength(1);
  });

  it.each(['transaction', 'batch', 'single'] as const)(
    'two corrections stored while the server was away both arrive, in order (%s)',
    async mode => {
      const id = `away ${mode}`;
      const { way, put, states, later, run } = setUp(id, { mode });
      await put(submissionText(id));
      await run();
      way.fetch = async () => {
        throw new TypeError('x', { cause: { code: 'ECONNREFUSED' } });
      };
      await put(corrected(id, 'L-18'));
      await run();
      await put(corrected(id, 'L-19'));
      await run();
      expect(await states()).toEqual(['delivered', 'waiting', 'waiting']);
      way.fetch = globalThis.fetch;
      await later(3_600_000);
      expect(await states()).toEqual(['delivered', 'delivered', 'delivered']);
      expect(await heldOf(id, 'Device', 'drain')).toMatchObject([{ lotNumber: 'L-19' }]);
    },
  );

  it('a correction stored while its original waits asks for the versions of the original', async () => {
    const id = 'waits';
    const { way, put, states, later, run } = setUp(id);
    const bodies: string[] = [];
    way.fetch = async () => {
      throw new TypeError('x', { cause: { code: 'ECONNREFUSED' } });
    };
    await put(submissionText(id));
    await put(corrected(id, 'L-18'));
    await run();
    way.fetch = (url, init) => {
      if (init?.method === 'POST') bodies.push(String(init.body));
      return fetch(url, init);
    };
    await later(3_600_000);
    expect(await states()).toEqual(['delivered', 'delivered']);
    expect(bodies.map(body => body.split('ifMatch').length - 1)).toEqual([0, 3]);
  });

  it.each([
    ['the connection goes', 'single', drop],
    ['the server is overloaded', 'single', () => new Response('', { status: 503 })],
    ['the server throttles', 'single', () => new Response('', { status: 429 })],
    ['the server forbids it', 'single', () => new Response('', { status: 403 })],
    ['the connection goes', 'batch', drop],
    ['the server throttles', 'batch', () => new Response('', { status: 429 })],
  ] as const)(
    'a correction goes on where it was, and not against itself, when %s in the middle (%s)',
    async (what, mode, fail) => {
      const id = `middle ${mode} ${what.length}`;
      const { outbox, way, put, states, later, run } = setUp(id, { mode });
      await put(submissionText(id));
      await run();
      let writes = 0;
      way.fetch = async (url, init) => {
        if (!isWrite(init)) return fetch(url, init);
        writes += 1;
        return writes > 2 ? fail() : fetch(url, init);
      };
      await put(corrected(id, 'L-18'));
      await run();
      expect((await states())[1]).toBe('waiting');
      expect(await heldOf(id, 'Device', 'drain')).toMatchObject([{ lotNumber: 'L-18' }]);
      way.fetch = globalThis.fetch;
      await outbox.changeGate('test server', () => ({
        destination: 'test server',
        closedUntil: 0,
        failures: 0,
      }));
      await later(3_600_000);
      expect(await states()).toEqual(['delivered', 'delivered']);
    },
  );

  it('a correction refused in the middle leaves no conflict for the one that takes its place', async () => {
    const id = 'instead';
    const { outbox, way, put, states, run } = setUp(id, { mode: 'single' });
    await put(submissionText(id));
    await run();
    let writes = 0;
    way.fetch = async (url, init) => {
      if (!isWrite(init)) return fetch(url, init);
      writes += 1;
      return writes > 2
        ? Response.json(
            { resourceType: 'OperationOutcome', issue: [{ severity: 'error', code: 'invalid' }] },
            { status: 422 },
          )
        : fetch(url, init);
    };
    const { id: item } = await put(corrected(id, 'L-18'));
    await run();
    expect((await outbox.get(item))?.state).toBe('parked');
    way.fetch = globalThis.fetch;
    await outbox.discard(item, { reason: 'wrong', by: 'a person', at: 0, findings: [] });
    await put(corrected(id, 'L-19'));
    await run();
    expect(await states()).toEqual(['delivered', 'wrong', 'delivered']);
    expect(await heldOf(id, 'Device', 'drain')).toMatchObject([{ lotNumber: 'L-19' }]);
  });

  it('still overwrites nothing that others changed in the middle of an interrupted correction', async () => {
    const id = 'others';
    const { way, put, states, later, run } = setUp(id, { mode: 'single' });
    await put(submissionText(id));
    await run();
    let writes = 0;
    way.fetch = async (url, init) => {
      if (!isWrite(init)) return fetch(url, init);
      writes += 1;
      return writes > 2 ? drop() : fetch(url, init);
    };
    await put(corrected(id, 'L-18'));
    await run();
    const [device] = (await heldOf(id, 'Device', 'drain')) as { id?: string }[];
    await fetch(`${server.baseUrl}/Device/${device?.id}`, {
      method: 'PUT',
      headers: { 'content-type': 'application/fhir+json' },
      body: JSON.stringify({ ...device, lotNumber: 'changed by others' }),
    });
    way.fetch = globalThis.fetch;
    await later(3_600_000);
    expect(await states()).toEqual(['delivered', 'version-conflict']);
    expect(await heldOf(id, 'Device', 'drain')).toMatchObject([{ lotNumber: 'changed by others' }]);
  });

  it('waits for the searches of a server before it corrects what they do not find yet', async () => {
    const id = 'too soon';
    const { way, put, states, later, run } = setUp(id, { searchLagMs: 60_000 });
    await put(submissionText(id));
    await run();
    let stale = true;
    let posts = 0;
    way.fetch = async (url, init) => {
      if (init?.method === 'POST') posts += 1;
      return stale && String(url).includes('identifier=')
        ? Response.json({ resourceType: 'Bundle', type: 'searchset' })
        : fetch(url, init);
    };
    const { id: item } = await put(corrected(id, 'L-18'));
    await run();
    expect([posts, await states()]).toEqual([0, ['delivered', 'waiting']]);
    stale = false;
    await later(62_000);
    expect([posts, await states()]).toEqual([1, ['delivered', 'delivered']]);
    expect(item).toBeDefined();
  });

  it('keeps what one lane is told when another one succeeds at the same time', async () => {
    const { outbox, worker } = setUp('lanes');
    const put = async (caseKey: string) => {
      const payload = submissionText(caseKey);
      const item = { destination: 'test server', caseKey, patientKey: caseKey, payload };
      await outbox.put({ ...item, digest: digestOf(payload) }, worker.clock());
    };
    await put('lane 1');
    await put('lane 2');
    // An earlier failure: a success has something to reset.
    await outbox.changeGate('test server', gate => ({ ...gate, failures: 1 }));
    let posts = 0;
    const fetch: typeof globalThis.fetch = async (url, init) => {
      if (init?.method !== 'POST') return globalThis.fetch(url, init);
      posts += 1;
      return posts === 1
        ? new Response('', { status: 429, headers: { 'retry-after': '90' } })
        : globalThis.fetch(url, init);
    };
    // Each read of a gate takes long enough for the other lane to read the same.
    const slow = new Proxy(outbox, {
      get(target, name) {
        const member: unknown = Reflect.get(target, name);
        if (name === 'gate')
          return async (destination: string): Promise<Gate> => {
            const gate = await target.gate(destination);
            await new Promise(resolve => setTimeout(resolve, 100));
            return gate;
          };
        return typeof member === 'function' ? member.bind(target) : member;
      },
    });
    const targets = worker.targets.map(target => ({ ...target, fetch }));
    const tally = await drain({ ...worker, outbox: slow, targets, lanes: 2 });
    expect(tally).toMatchObject({ delivered: 1, again: 1 });
    expect(await outbox.gate('test server')).toEqual({
      destination: 'test server',
      closedUntil: worker.clock() + 90_000,
      failures: 0,
    });
  });
});
