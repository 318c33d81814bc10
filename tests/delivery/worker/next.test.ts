import { describe, expect, it } from 'vitest';
import { MemoryOutbox } from '../../../src/delivery/outbox/memory-outbox.js';
import { resume } from '../../../src/delivery/worker/gates.js';
import { whatNext } from '../../../src/delivery/worker/next.js';
import { say } from '../../../src/findings/say.js';

const NOW = Date.UTC(2024, 2, 14, 10, 0, 0);

async function outboxWith(...cases: readonly [caseKey: string, patientKey: string][]) {
  let ids = 0;
  const outbox = new MemoryOutbox(() => `i${++ids}`);
  for (const [caseKey, patientKey] of cases)
    await outbox.put(
      { destination: 'd', caseKey, patientKey, payload: '{}', digest: `sha256:${caseKey}` },
      NOW,
    );
  const next = async (id: string) => {
    const item = await outbox.get(id);
    const told = item && (await whatNext(item, outbox, NOW));
    return told && say(told.message);
  };
  const fails = async (reason: string, unknown: boolean, notBefore = NOW) => {
    const lease = await outbox.claim('d', NOW, 1_000);
    if (!lease) throw new Error('nothing to claim');
    await outbox.settle(lease, { kind: 'again', notBefore, reason, unknown }, NOW);
  };
  return { outbox, next, fails };
}

describe('what is said to happen next', () => {
  it('is the time that the server asked for, which a retry keeps', async () => {
    const { outbox, next, fails } = await outboxWith(['c1', 'p1']);
    await fails('rate-limit', false);
    await outbox.changeGate('d', gate => ({ ...gate, closedUntil: NOW + 40_000, paused: 'forbidden' }));
    expect(await next('i1')).toMatch(/^waits because d needs a person \(forbidden\)/);
    await resume(outbox, 'd', true);
    expect(await next('i1')).toMatch(/^goes again at \d\d:\d\d:40 \(in 40 s, the server asked for time\)$/);
    await resume(outbox, 'd');
    expect(await next('i1')).toMatch(/^goes again with the next run/);
  });

  it('is that the server will be asked, where it is not known whether the case arrived', async () => {
    const { next, fails } = await outboxWith(['c1', 'p1']);
    await fails('time-out', true, NOW + 5_000);
    expect(await next('i1')).toMatch(
      /^it is not known whether it arrived; d will be asked at \d\d:\d\d:05 \(in 5 s\)$/,
    );
  });

  it('names the earlier item that stands before it, and only that', async () => {
    const { outbox, next } = await outboxWith(['c1', 'p1'], ['c1b', 'p1'], ['c2', 'p2']);
    expect(await next('i2')).toBe('waits behind i1 of the same patient: casetally outbox show i1');
    expect(await next('i3')).toMatch(/^goes again/);
    await outbox.park('i1', { reason: 'r', by: 'b', at: NOW, findings: [] });
    expect(await next('i1')).toBe('needs a person: casetally outbox show i1');
    // A parked case holds back its own later versions alone.
    expect(await next('i2')).toMatch(/^goes again/);
    expect((await outbox.claim('d', NOW, 1_000))?.item.id).toBe('i2');
  });

  it('names the parked version before a later one of the same case', async () => {
    const { outbox, next } = await outboxWith(['c1', 'p1']);
    await outbox.park('i1', { reason: 'r', by: 'b', at: NOW, findings: [] });
    const item = { destination: 'd', caseKey: 'c1', patientKey: 'p1', payload: '{ }', digest: 'sha256:2' };
    await outbox.put(item, NOW);
    expect(await next('i2')).toBe(
      'waits behind i1 of the same case, which needs a person: casetally outbox show i1',
    );
    expect(await outbox.claim('d', NOW, 1_000)).toBeUndefined();
  });
});
