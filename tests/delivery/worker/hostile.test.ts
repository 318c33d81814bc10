import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import type { Destination } from '../../../src/delivery/destination/destination.js';
import { MemoryOutbox } from '../../../src/delivery/outbox/memory-outbox.js';
import type { OutboxItem } from '../../../src/delivery/outbox/outbox.js';
import { digestOf } from '../../../src/delivery/request/submission.js';
import { drain, type WorkerDeps } from '../../../src/delivery/worker/worker.js';
import { ALL_MODES, type HostileServer, type Mode, startHostile } from '../../support/hostile/server.js';
import { deps, destination, submissionText } from '../samples.js';

let server: HostileServer;
beforeEach(async () => {
  server = await startHostile();
});
afterEach(() => server.close());

/** Sends one case past a misbehaving server, until nothing more happens by itself, with time moved on by hand. */
async function run(
  settings: Partial<Destination>,
  ...modes: Mode[]
): Promise<{ item: OutboxItem; gate: string | undefined; events: string[] }> {
  server.plan(...modes);
  const d = deps();
  const outbox = new MemoryOutbox(d.newId);
  const target = {
    destination: destination(server.baseUrl, { timeoutMs: 250, searchLagMs: 60_000, ...settings }),
  };
  const payload = submissionText('hostile');
  const put = await outbox.put(
    { destination: 'test server', caseKey: 'c', patientKey: 'p', payload, digest: digestOf(payload) },
    d.clock(),
  );
  const events: string[] = [];
  const worker: WorkerDeps = {
    outbox,
    targets: [target],
    clock: d.clock,
    newId: d.newId,
    random: () => 0.5,
    ...(d.sleep && { sleep: d.sleep }),
    onEvent: e => events.push(`${e.came}${e.reason ? `: ${e.reason}` : ''}`),
  };
  for (let round = 0; round < 60; round += 1) {
    await drain(worker);
    const now = await outbox.get(put.id);
    const gate = await outbox.gate('test server');
    if (!now) throw new Error('the item is gone');
    if (now.state !== 'waiting' || gate.paused !== undefined) return { item: now, gate: gate.paused, events };
    await d.sleep?.(Math.max(now.notBefore, gate.closedUntil, d.clock() + 1) - d.clock());
  }
  throw new Error(`it never came to rest: ${events.join(', ')}`);
}

const posts = () => server.requests.filter(r => r.startsWith('POST'));

/** How each fault must end: the item's state, how many sends it may take, and the resources at the server. */
const rows: Record<
  Mode,
  { state: OutboxItem['state']; posts: number; held: number; reason?: string; gate?: string }
> = {
  obedient: { state: 'delivered', posts: 1, held: 4 },
  'commits, then drops the connection': { state: 'delivered', posts: 1, held: 4 },
  'drops the connection before it commits': { state: 'delivered', posts: 2, held: 4 },
  'commits, then answers 504 in HTML': { state: 'delivered', posts: 1, held: 4 },
  'commits, then hangs': { state: 'delivered', posts: 1, held: 4 },
  'hangs without committing': { state: 'delivered', posts: 2, held: 4 },
  'commits, then sends half the answer': { state: 'delivered', posts: 1, held: 4 },
  'commits, then drips the answer slowly': { state: 'delivered', posts: 1, held: 4 },
  'commits, answers as text/html': { state: 'delivered', posts: 1, held: 4 },
  'commits, answers 200 with nothing': { state: 'delivered', posts: 1, held: 4 },
  'runs a batch instead, all of it': { state: 'delivered', posts: 1, held: 4 },
  'runs a batch instead, half of it': { state: 'parked', posts: 1, held: 2, reason: 'entry-failed' },
  'answers in the wrong order': { state: 'delivered', posts: 1, held: 4 },
  'answers without locations': { state: 'delivered', posts: 1, held: 4 },
  'answers fewer entries than sent': { state: 'delivered', posts: 1, held: 4 },
  'gives strong version tags': { state: 'delivered', posts: 1, held: 4 },
  'stores the Bundle as a document': { state: 'waiting', posts: 1, held: 0, gate: 'echoed' },
  'answers 409 although it exists': { state: 'delivered', posts: 1, held: 4 },
  'finds several matches': { state: 'parked', posts: 1, held: 0, reason: 'several-matches' },
  'answers 429 with seconds': { state: 'delivered', posts: 2, held: 4 },
  'answers 429 with a date': { state: 'delivered', posts: 2, held: 4 },
  'answers 429 with garbage': { state: 'delivered', posts: 2, held: 4 },
  'answers 429 inside the entries': { state: 'delivered', posts: 2, held: 4 },
  'answers 503': { state: 'delivered', posts: 2, held: 4 },
  'commits, then answers 500': { state: 'delivered', posts: 1, held: 4 },
  'answers 401': { state: 'waiting', posts: 1, held: 0, gate: 'unauthorised' },
  'answers 403': { state: 'waiting', posts: 1, held: 0, gate: 'forbidden' },
  'answers 415 to a charset': { state: 'delivered', posts: 1, held: 4 },
  'takes 100 kB at most': { state: 'delivered', posts: 1, held: 4 },
  'redirects to another host': { state: 'waiting', posts: 1, held: 0, gate: 'redirect' },
  'refuses the content': { state: 'parked', posts: 1, held: 0, reason: 'invalid' },
  'commits, and searches stay stale for a while': { state: 'delivered', posts: 1, held: 4 },
  'commits, and makes doubles': { state: 'parked', posts: 1, held: 8, reason: 'several-matches' },
  'leaves placeholders in references': { state: 'delivered', posts: 1, held: 4 },
  'strips lot numbers': { state: 'delivered', posts: 1, held: 4 },
};

describe('the worker past a hostile server', () => {
  it('has a row for every way to misbehave', () => {
    expect(Object.keys(rows).sort()).toEqual([...ALL_MODES].sort());
  });

  it.each(ALL_MODES)('%s', async mode => {
    const { item, gate, events } = await run({}, mode);
    const expected = rows[mode];
    expect({
      state: item.state,
      posts: posts().length,
      held: server.store.resources.length,
      gate,
      events,
    }).toEqual({
      state: expected.state,
      posts: expected.posts,
      held: expected.held,
      gate: expected.gate,
      events,
    });
    if (expected.reason) expect(item.parked?.reason).toBe(expected.reason);
    if (mode !== 'commits, and makes doubles') expect(server.store.doubles()).toEqual([]);
    if (item.state === 'delivered') {
      expect(item.receipt?.entries.map(e => e.id)).toEqual(server.store.resources.map(r => r.id));
    }
    if (item.state === 'parked') expect(item.parked?.findings.length).toBeGreaterThan(0);
  });

  it.each([
    ['leaves placeholders in references', 'placeholder-left', 'Procedure.subject.reference'],
    ['strips lot numbers', 'dropped', 'Device.lotNumber'],
  ] as const)('tells that the server %s, when it is read back', async (mode, kind, path) => {
    const { item } = await run({ readBack: true }, mode);
    expect(item.state).toBe('delivered');
    expect(item.receipt?.differences).toContainEqual(expect.objectContaining({ kind, path, alarm: true }));
  });

  it('comes through a row of different faults with one case at the end', async () => {
    const { item } = await run(
      {},
      'answers 503',
      'hangs without committing',
      'answers 429 with seconds',
      'drops the connection before it commits',
      'commits, then drops the connection',
    );
    expect([item.state, server.store.resources.length, server.store.doubles()]).toEqual(['delivered', 4, []]);
  });
});
