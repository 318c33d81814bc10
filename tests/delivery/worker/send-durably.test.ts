import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import { MemoryOutbox } from '../../../src/delivery/outbox/memory-outbox.js';
import { dataFolder } from '../../../src/delivery/outbox/place.js';
import { digestOf } from '../../../src/delivery/request/submission.js';
import { durableExitCode, sendDurably } from '../../../src/delivery/worker/send-durably.js';
import { drain } from '../../../src/delivery/worker/worker.js';
import { type HostileServer, type Mode, startHostile } from '../../support/hostile/server.js';
import { deps, destination, submissionText } from '../samples.js';

let server: HostileServer;
beforeEach(async () => {
  server = await startHostile();
});
afterEach(() => server.close());

function setUp(baseUrl = server.baseUrl) {
  const d = deps();
  const payload = submissionText('durable');
  const item = { destination: 'd', caseKey: 'c', patientKey: 'p', payload, digest: digestOf(payload) };
  const worker = {
    outbox: new MemoryOutbox(d.newId),
    targets: [{ destination: destination(baseUrl, { name: 'd' }) }],
    clock: d.clock,
    newId: d.newId,
    random: () => 0.5,
    ...(d.sleep && { sleep: d.sleep }),
  };
  return { item, worker, d };
}

describe('sendDurably', () => {
  it.each<[Mode, number, string]>([
    ['obedient', 0, 'delivered'],
    ['refuses the content', 3, 'parked'],
    ['answers 403', 3, 'waiting'],
    ['answers 429 with seconds', 4, 'waiting'],
    ['drops the connection before it commits', 4, 'waiting'],
  ])('a server that is or does "%s": exit %d, %s', async (mode, exit, state) => {
    server.plan(mode);
    const { item, worker } = setUp();
    const result = await sendDurably(item, worker);
    expect([durableExitCode(result), result.item.state]).toEqual([exit, state]);
    expect(result.findings.length > 0).toBe(exit !== 0);
  });

  it('stores with the server stopped and exits 4; started again, one retry delivers once', async () => {
    await server.close();
    const { item, worker, d } = setUp();
    const result = await sendDurably(item, worker);
    expect([durableExitCode(result), result.item.state, result.findings[0]?.code]).toEqual([
      4,
      'waiting',
      'delivery.unreachable',
    ]);
    server = await startHostile();
    const targets = [{ destination: destination(server.baseUrl, { name: 'd' }) }];
    await worker.outbox.retry(result.item.id, d.clock());
    expect(await drain({ ...worker, targets })).toMatchObject({ delivered: 1 });
    expect(server.store.resources).toHaveLength(4);
  });

  it('sends a case once when the command is given twice', async () => {
    const { item, worker } = setUp();
    const first = await sendDurably(item, worker);
    const second = await sendDurably(item, worker);
    expect(second.item.id).toBe(first.item.id);
    expect(durableExitCode(second)).toBe(0);
    expect(server.requests.filter(r => r.startsWith('POST'))).toHaveLength(1);
  });
});

describe('dataFolder', () => {
  /* XDG Base Directory Specification: $XDG_DATA_HOME, else ~/.local/share; a relative path there is ignored. */
  it.each<[string | undefined, Record<string, string>, NodeJS.Platform, string]>([
    ['/given', { CASETALLY_DATA: '/env' }, 'linux', '/given'],
    [undefined, { CASETALLY_DATA: '/env', XDG_DATA_HOME: '/x' }, 'linux', '/env'],
    [undefined, { XDG_DATA_HOME: '/x' }, 'linux', '/x/casetally'],
    [undefined, { XDG_DATA_HOME: 'x' }, 'linux', '/home/u/.local/share/casetally'],
    [undefined, {}, 'darwin', '/home/u/Library/Application Support/casetally'],
    [undefined, { LOCALAPPDATA: '/l' }, 'win32', '/l/casetally'],
  ])('%s %j on %s', (given, env, platform, expected) => {
    expect(dataFolder(given, env, platform, '/home/u')).toBe(expected);
  });
});
