import { afterEach, describe, expect, it } from 'vitest';
import { resourceLimits, roomFor } from '../../../src/service/threads/memory.js';
import { type PoolLimits, WorkerPool } from '../../../src/service/threads/pool.js';

/* Jobs that go wrong on purpose, in threads of their own. */

const thread = `
  import { parentPort } from 'node:worker_threads';
  let asked;
  const answer = answer => parentPort.postMessage({ kind: 'answer', answer });
  parentPort.on('message', ({ kind, job, value }) => {
    if (kind === 'told') { asked(value); return; }
    const ask = question => new Promise(resolve => {
      asked = resolve;
      parentPort.postMessage({ kind: 'ask', id: 1, question });
    });
    const jobs = {
      echo: () => answer('done'),
      spin: () => { for (;;); },
      grow: () => {
        const held = [];
        const text = JSON.stringify(Array.from({ length: 2000 }, (_, n) => ({ n, what: 'entry ' + n })));
        for (;;) held.push(JSON.parse(text));
      },
      churn: () => {
        const text = JSON.stringify(Array.from({ length: 2000 }, (_, n) => ({ n, what: 'entry ' + n })));
        let last;
        for (const end = Date.now() + 1_500; Date.now() < end; ) last = [JSON.parse(text), last?.[0]];
        answer('done');
      },
      exit: () => process.exit(7),
      fail: () => { throw new Error('as a fault would'); },
      slow: () => setTimeout(() => answer('slow'), 300),
      look: async () => answer(await ask('look')),
      wait: async () => answer(await ask('others')),
      'wait and spin': async () => { await ask('others'); for (;;); },
      store: async () => { await ask('store'); setTimeout(() => answer('stored'), 1500); },
      'store and die': async () => { await ask('store'); process.exit(7); },
    };
    jobs[job]();
  });
  parentPort.postMessage({ kind: 'ready' });
`;
const scriptOf = (text: string) => new URL(`data:text/javascript,${encodeURIComponent(text)}`);

let pool: WorkerPool<string, string, string> | undefined;
afterEach(() => pool?.close());

async function started(limits: Partial<PoolLimits> = {}, room: 'wide' | 'narrow' = 'wide') {
  pool = await WorkerPool.start<string, string, string>({
    script: scriptOf(thread),
    data: undefined,
    room,
    limits: { threads: 1, waiting: 5, seconds: 1, waitSeconds: 30, megabytes: 32, ...limits },
    onAsk: async question => {
      if (question === 'others') await new Promise(resolve => setTimeout(resolve, 1500));
      return `told ${question}`;
    },
    waitsForOthers: question => question === 'others',
    isLasting: question => question === 'store',
  });
  return pool;
}
const done = { kind: 'answered', answer: 'done' };

describe('a pool of threads', () => {
  it.each([
    ['takes too long', 'spin', 'too-long', 1],
    ['takes too much memory', 'grow', 'too-large', 60],
    ['ends its thread', 'exit', 'died', 60],
    ['has a fault', 'fail', 'died', 60],
  ])(
    'a job that %s ends alone: what waits behind it is done by another thread',
    async (_, bad, kind, seconds) => {
      const work = await started({ seconds, waitSeconds: 100 });
      const [wrong, ...others] = await Promise.all([bad, 'echo', 'echo', 'look'].map(job => work.run(job)));
      expect(wrong).toEqual({ kind, lasting: false });
      expect(others).toEqual([done, done, { kind: 'answered', answer: 'told look' }]);
      expect(work.state).toMatchObject({ threads: 1, replaced: 1, busy: 0, waiting: 0, failedStarts: 0 });
    },
  );

  it.each(['wide', 'narrow'] as const)(
    'counts what lasts and not what comes and goes, in %s room',
    async room => {
      const work = await started({ seconds: 60, megabytes: 48 }, room);
      expect(await work.run('churn')).toEqual(done);
      expect(await work.run('grow')).toEqual({ kind: 'too-large', lasting: false });
    },
  );

  it.each([128, 256, 512, 16_384])(
    'leaves more room for what lasts than for what comes and goes: %i MB',
    megabytes => {
      for (const room of ['wide', 'narrow'] as const) {
        const { maxOldGenerationSizeMb = 0, maxYoungGenerationSizeMb = 0 } = resourceLimits({
          megabytes,
          room,
        });
        expect(maxOldGenerationSizeMb).toBeGreaterThanOrEqual(megabytes);
        // Below that the engine does little but collect: a case in twice its time, as measured.
        expect(maxYoungGenerationSizeMb).toBeLessThanOrEqual(megabytes);
        expect(maxYoungGenerationSizeMb).toBeGreaterThanOrEqual(96);
      }
    },
  );

  it.each([
    [2, 3, 'wide'],
    [4, 3, 'wide'],
    [8, 3, 'narrow'],
    [8, 16, 'wide'],
    [2, 1, 'narrow'],
  ])('%i threads in %i GB have %s room', (threads, gigabytes, room) => {
    expect(roomFor(threads, gigabytes * 2 ** 30)).toBe(room);
  });

  it('has the room that the memory of this machine or its group of processes gives', () => {
    expect(roomFor(0)).toBe('wide');
    expect(roomFor(1_000_000)).toBe('narrow');
  });

  it('starts a thread when a job would wait, and no more than there may be', async () => {
    const work = await started({ threads: 2 });
    expect(work.state.threads).toBe(1);
    expect(await work.run('echo')).toEqual(done);
    expect(await work.run('echo')).toEqual(done);
    expect(work.state.threads).toBe(1);
    const slow = ['slow', 'slow', 'slow', 'slow'].map(job => work.run(job));
    expect(work.state.threads).toBe(2);
    expect(work.isFull).toBe(false);
    expect((await Promise.all(slow)).map(({ kind }) => kind)).toEqual(Array(4).fill('answered'));
    expect(work.state).toMatchObject({ threads: 2, busy: 0, waiting: 0, replaced: 0 });
  });

  it('a job beside one that never ends is done at once', async () => {
    const work = await started({ threads: 2 });
    const endless = work.run('spin');
    const first = await Promise.race([endless, work.run('echo')]);
    expect(first).toEqual(done);
    expect((await endless).kind).toBe('too-long');
  });

  it('turns away what is more than may wait, and what waited too long', async () => {
    const work = await started({ waiting: 2 });
    expect(work.isFull).toBe(false);
    const all = ['spin', 'echo', 'echo', 'echo'].map(job => work.run(job));
    expect(work.isFull).toBe(true);
    expect((await Promise.all(all)).map(({ kind }) => kind)).toEqual([
      'too-long',
      ...['answered', 'answered', 'full'],
    ]);
    const stuck = await started({ waitSeconds: 0.5 });
    const storing = stuck.run('store');
    const behind = await stuck.run('echo');
    expect([behind.kind, (await storing).kind]).toEqual(['waited', 'answered']);
  });

  it('does not do what nobody waits for, and finishes what it has begun', async () => {
    const work = await started();
    const [begun, waiting] = [new AbortController(), new AbortController()];
    const all = [work.run('slow', begun.signal), work.run('echo', waiting.signal), work.run('echo')];
    begun.abort();
    waiting.abort();
    expect((await Promise.all(all)).map(({ kind }) => kind)).toEqual(['answered', 'left', 'answered']);
    expect(work.state.replaced).toBe(0);
  });

  it('does not count the time that a job waits for others, and goes on counting after it', async () => {
    const work = await started({ threads: 2, seconds: 1, waitSeconds: 100 });
    expect(await Promise.all(['wait', 'wait and spin'].map(job => work.run(job)))).toEqual([
      { kind: 'answered', answer: 'told others' },
      { kind: 'too-long', lasting: false },
    ]);
  });

  it('never cuts a job off once it stores, and says of one that died so that it may have stored', async () => {
    const work = await started();
    expect(await work.run('store')).toEqual({ kind: 'answered', answer: 'stored' });
    expect(await work.run('store and die')).toEqual({ kind: 'died', lasting: true });
  });

  it('says what keeps its threads from starting', async () => {
    const missing = `
      const error = new Error('no definitions');
      throw Object.assign(error, { name: 'CasetallyError', code: 'definitions-missing' });`;
    await expect(
      WorkerPool.start({
        script: scriptOf(missing),
        data: undefined,
        room: 'wide',
        limits: { threads: 2, waiting: 1, seconds: 1, waitSeconds: 1, megabytes: 32 },
        onAsk: async () => undefined,
        isLasting: () => false,
      }),
    ).rejects.toMatchObject({
      ...{ name: 'CasetallyError', code: 'definitions-missing', message: 'no definitions' },
    });
  });

  it('a closed pool does nothing any more', async () => {
    const work = await started();
    const [running, waiting] = [work.run('spin'), work.run('echo')];
    await work.close();
    expect([(await running).kind, (await waiting).kind, (await work.run('echo')).kind]).toEqual([
      'died',
      ...['left', 'left'],
    ]);
  });
});
