import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import type { Lease, NewItem, Outbox, Parked, Settlement } from '../../../src/delivery/outbox/outbox.js';
import { itemsContract, type StoreUnderTest } from './contract-items.js';
import { claimsLikeTheModel } from './order.js';
import { delivery as receipt } from './samples.js';

const parked: Parked = { reason: 'invalid', by: 'casetally', at: 5, findings: [] };
const again = (notBefore: number, unknown: boolean | 'as before' = false): Settlement => ({
  kind: 'again',
  notBefore,
  reason: 'unavailable',
  unknown,
});

/** The one suite that every store of the outbox passes. */
export function outboxContract(name: string, open: () => Promise<StoreUnderTest>): void {
  describe(`outbox contract: ${name}`, () => {
    let store: StoreUnderTest;
    let outbox: Outbox;
    beforeEach(async () => {
      store = await open();
      outbox = store.outbox;
    });
    afterEach(() => store.cleanUp());

    let made = 0;
    const item = (more: Partial<NewItem> = {}): NewItem => {
      made += 1;
      const payload = `{"n":${made},"text":"ä ✓"}`;
      return {
        destination: 'records',
        caseKey: `case ${made}`,
        patientKey: `patient ${made}`,
        payload,
        digest: `sha256:${made}`,
        ...more,
      };
    };
    const put = (more: Partial<NewItem> = {}, now = 0) => outbox.put(item(more), now);
    const claim = async (now = 0, destination = 'records'): Promise<Lease> => {
      const lease = await outbox.claim(destination, now, 100);
      if (!lease) throw new Error('nothing to claim');
      return lease;
    };

    it('gives back byte for byte what was put in', async () => {
      const given = item({ context: '{"sources":1}' });
      const { id } = await outbox.put(given, 7);
      expect(await outbox.get(id)).toMatchObject({ ...given, state: 'waiting', createdAt: 7, attempts: 0 });
      expect(await outbox.get('no such')).toBeUndefined();
    });

    it('takes the same payload of a case once, and again once another state of the case came between', async () => {
      const first = item({ caseKey: 'c', digest: 'sha256:a' });
      const { id } = await outbox.put(first, 0);
      expect((await outbox.put(first, 1)).id).toBe(id);
      const second = await outbox.put({ ...first, digest: 'sha256:b' }, 2);
      expect(second.id).not.toBe(id);
      const back = await outbox.put(first, 3);
      expect([id, second.id]).not.toContain(back.id);
      expect((await outbox.put({ ...first, destination: 'other' }, 4)).id).not.toBe(back.id);
    });

    it('takes the same payload again when it is to be sent over what is there, and that once', async () => {
      const given = item({ caseKey: 'c' });
      const { id } = await outbox.put(given, 0);
      const over = await outbox.put({ ...given, overwrite: true }, 1);
      expect(over.id).not.toBe(id);
      expect(await outbox.get(over.id)).toMatchObject({ overwrite: true });
      expect((await outbox.get(id))?.overwrite).toBeUndefined();
      expect((await outbox.put({ ...given, overwrite: true }, 2)).id).toBe(over.id);
      expect((await outbox.put(given, 3)).id).toBe(over.id);
    });

    it('takes a discarded payload in anew', async () => {
      const given = item();
      const { id } = await outbox.put(given, 0);
      expect(await outbox.discard(id, parked)).toBe(true);
      expect((await outbox.put(given, 1)).id).not.toBe(id);
    });

    it('claims in order of arrival, per destination, and nothing twice', async () => {
      const a = await put();
      const b = await put();
      await put({ destination: 'other' });
      expect((await claim()).item.id).toBe(a.id);
      expect((await claim()).item.id).toBe(b.id);
      expect(await outbox.claim('records', 0, 100)).toBeUndefined();
      expect((await claim(0, 'other')).item.destination).toBe('other');
    });

    it('never lets an amendment overtake its original', async () => {
      const original = await put({ caseKey: 'c', patientKey: 'p' });
      const amendment = await put({ caseKey: 'c', patientKey: 'p' });
      const lease = await claim();
      expect(lease.item.id).toBe(original.id);
      expect(await outbox.claim('records', 0, 100)).toBeUndefined();
      await outbox.settle(lease, again(50), 0);
      expect(await outbox.claim('records', 10, 100)).toBeUndefined();
      const second = await claim(50);
      expect(second.item.id).toBe(original.id);
      await outbox.settle(second, { kind: 'delivered', receipt }, 60);
      expect((await claim(60)).item.id).toBe(amendment.id);
    });

    it('keeps the cases of one patient in order, and lets other patients pass', async () => {
      await put({ patientKey: 'p' });
      await put({ patientKey: 'p' });
      const other = await put({ patientKey: 'q' });
      await claim();
      expect((await claim()).item.id).toBe(other.id);
      expect(await outbox.claim('records', 0, 100)).toBeUndefined();
    });

    it('lets a parked item hold only its own case', async () => {
      const first = await put({ caseKey: 'c', patientKey: 'p' });
      const amendment = await put({ caseKey: 'c', patientKey: 'p' });
      const other = await put({ caseKey: 'd', patientKey: 'p' });
      await outbox.settle(await claim(), { kind: 'parked', parked }, 0);
      const lease = await claim();
      expect(lease.item.id).toBe(other.id);
      await outbox.settle(lease, { kind: 'delivered', receipt }, 0);
      expect(await outbox.claim('records', 0, 100)).toBeUndefined();
      expect(await outbox.discard(first.id, parked)).toBe(true);
      expect((await claim()).item.id).toBe(amendment.id);
    });

    it.each([
      [true, undefined],
      [false, 5],
    ])('parks what certainly was not taken (%s) without a doubt about it', async (known, since) => {
      const { id } = await put();
      const lease = await claim();
      await outbox.begin(lease, 5);
      await outbox.settle(lease, { kind: 'parked', parked, known }, 6);
      expect((await outbox.get(id))?.unknownSince).toBe(since);
    });

    it('serves no item of a patient while a later one of them is being sent', async () => {
      const first = await put({ caseKey: 'c', patientKey: 'p' });
      await put({ caseKey: 'd', patientKey: 'p' });
      await outbox.settle(await claim(), { kind: 'parked', parked }, 0);
      await claim();
      await outbox.retry(first.id, 0);
      expect(await outbox.claim('records', 0, 100)).toBeUndefined();
    });

    it('lets no lease that has run out hold up its patient, and takes both items up in order of arrival', async () => {
      const first = await put({ patientKey: 'p' });
      const second = await put({ patientKey: 'p' });
      await outbox.settle(await claim(), { kind: 'parked', parked }, 0);
      // The worker that holds the second one dies.
      expect((await claim()).item.id).toBe(second.id);
      await outbox.retry(first.id, 10);
      expect(await outbox.claim('records', 99, 100)).toBeUndefined();
      const lease = await claim(100);
      expect(lease.item.id).toBe(first.id);
      expect(await outbox.claim('records', 150, 100)).toBeUndefined();
      await outbox.settle(lease, { kind: 'delivered', receipt }, 150);
      expect((await claim(150)).item.id).toBe(second.id);
    });

    it('hands an item on when its lease runs out, and refuses the late holder every write', async () => {
      await put();
      const late = await claim(0);
      expect(await outbox.claim('records', 99, 100)).toBeUndefined();
      const next = await claim(100);
      expect(next.item.id).toBe(late.item.id);
      expect(next.fence).toBeGreaterThan(late.fence);
      expect(await outbox.begin(late, 101)).toBe(false);
      expect(await outbox.extend(late, 500, 101)).toBe(false);
      expect(await outbox.settle(late, { kind: 'delivered', receipt }, 101)).toBe(false);
      expect(await outbox.begin(next, 101)).toBe(true);
      expect((await outbox.get(next.item.id))?.state).toBe('sending');
    });

    it('refuses a holder whose lease has run out even when nobody else took it', async () => {
      await put();
      const lease = await claim(0);
      expect(await outbox.begin(lease, 100)).toBe(false);
      expect(await outbox.settle(lease, { kind: 'delivered', receipt }, 100)).toBe(false);
    });

    it('prolongs a lease', async () => {
      await put();
      const lease = await claim(0);
      expect(await outbox.extend(lease, 1_000, 50)).toBe(true);
      expect(await outbox.claim('records', 500, 100)).toBeUndefined();
      expect(await outbox.begin(lease, 500)).toBe(true);
    });

    it('remembers that a send began, until its outcome is known', async () => {
      const { id } = await put();
      const lease = await claim(10);
      await outbox.begin(lease, 20);
      const reopened = await store.reopen();
      expect(await reopened.get(id)).toMatchObject({ attempts: 1, unknownSince: 20, state: 'sending' });
      await outbox.settle(lease, again(50, false), 25);
      expect(await outbox.get(id)).toMatchObject({ lastReason: 'unavailable' });
      expect((await outbox.get(id))?.unknownSince).toBeUndefined();
    });

    it('counts what is not known from the last send that may have taken effect', async () => {
      const { id } = await put();
      const since = async () => (await outbox.get(id))?.unknownSince;
      const first = await claim(10);
      await outbox.begin(first, 20);
      // Its answer is lost: it may have taken effect up to now.
      await outbox.settle(first, again(30, true), 30);
      expect(await since()).toBe(30);
      // The destination was only asked.
      await outbox.settle(await claim(40), again(50, 'as before'), 45);
      expect(await since()).toBe(30);
      const second = await claim(50);
      await outbox.begin(second, 60);
      expect(await since()).toBe(60);
      await outbox.settle(second, again(80, true), 75);
      expect(await since()).toBe(75);
    });

    it('counts from the end of its lease what a dead worker may have sent', async () => {
      const { id } = await put();
      await outbox.begin(await claim(10), 20);
      const next = await claim(150);
      expect(next.item.unknownSince).toBe(110);
      // Nothing was sent under a lease without a begun send.
      const other = await put({}, 150);
      await claim(150);
      expect((await claim(260)).item.id).toBe(id);
      const taken = await claim(260);
      expect([taken.item.id, taken.item.unknownSince]).toEqual([other.id, undefined]);
    });

    it('keeps the receipt', async () => {
      const { id } = await put();
      await outbox.settle(await claim(), { kind: 'delivered', receipt }, 0);
      const reopened = await store.reopen();
      expect(await reopened.get(id)).toMatchObject({ state: 'delivered', receipt });
    });

    it('parks, retries and discards by a person, and leaves alone what is delivered or being sent', async () => {
      const { id } = await put();
      expect(await outbox.park(id, parked)).toBe(true);
      expect(await outbox.get(id)).toMatchObject({ state: 'parked', parked, lastReason: 'invalid' });
      expect(await outbox.retry(id, 9)).toBe(true);
      expect(await outbox.get(id)).toMatchObject({ state: 'waiting', notBefore: 9 });
      expect((await outbox.get(id))?.parked).toBeUndefined();
      const lease = await claim(9);
      expect(await outbox.retry(id, 9)).toBe(false);
      expect(await outbox.park(id, parked)).toBe(false);
      expect(await outbox.discard(id, parked)).toBe(false);
      await outbox.settle(lease, { kind: 'delivered', receipt }, 10);
      expect(await outbox.discard(id, parked)).toBe(false);
      expect(await outbox.retry(id, 10)).toBe(false);
    });

    it('keeps what a person chose with a retry', async () => {
      const { id } = await put();
      await outbox.park(id, parked);
      const accepted = [{ field: 'name', sent: 'a', held: 'b', by: 'x', why: 'y', at: 1 }];
      expect(await outbox.retry(id, 9, { accepted, overwrite: true })).toBe(true);
      expect(await outbox.get(id)).toMatchObject({ state: 'waiting', accepted, overwrite: true });
      await outbox.retry(id, 10);
      expect(await outbox.get(id)).toMatchObject({ accepted, overwrite: true });
    });

    it('lists in order of arrival, by destination, case and state', async () => {
      const a = await put({ caseKey: 'x' });
      const b = await put({ destination: 'other' });
      await outbox.park(b.id, parked);
      const ids = async (filter: Parameters<Outbox['list']>[0]) => (await outbox.list(filter)).map(i => i.id);
      expect(await ids({})).toEqual([a.id, b.id]);
      expect(await ids({ destination: 'other' })).toEqual([b.id]);
      expect(await ids({ caseKey: 'x' })).toEqual([a.id]);
      const c = await put({ patientKey: 'of c', caseKey: 'y' });
      expect(await ids({ patientKey: 'of c' })).toEqual([c.id]);
      expect(await ids({ patientKey: 'of c', states: ['parked'] })).toEqual([]);
      expect(await ids({ states: ['parked', 'discarded'] })).toEqual([b.id]);
      expect(await ids({ limit: 1 })).toEqual([a.id]);
    });

    it('counts by destination, with the age of the oldest', async () => {
      await put({}, 3);
      await put({}, 5);
      await outbox.settle(await claim(5), { kind: 'delivered', receipt }, 6);
      await outbox.begin(await claim(7), 8);
      for (const state of ['waiting', 'parked', 'delivered'] as const)
        expect(await outbox.idsOf(state)).toEqual(
          (await outbox.list({ states: [state] })).map(({ id }) => id),
        );
      expect(await outbox.depths()).toEqual([
        { destination: 'records', waiting: 0, sending: 1, parked: 0, delivered: 1, unknown: 1, oldest: 5 },
      ]);
    });

    it('tells when something falls due', async () => {
      expect(await outbox.nextDue(['records'])).toBeUndefined();
      await put({}, 4);
      await put({ destination: 'other' }, 1);
      expect(await outbox.nextDue(['records'])).toBe(4);
      await claim(4);
      expect(await outbox.nextDue(['records'])).toBe(104);
      expect(await outbox.nextDue(['records', 'other'])).toBe(1);
    });

    it('keeps gates', async () => {
      expect(await outbox.gate('records')).toEqual({ destination: 'records', closedUntil: 0, failures: 0 });
      await outbox.changeGate('records', gate => ({
        ...gate,
        closedUntil: 9,
        failures: 2,
        paused: 'forbidden',
      }));
      const reopened = await store.reopen();
      expect(await reopened.gate('records')).toEqual({
        destination: 'records',
        closedUntil: 9,
        failures: 2,
        paused: 'forbidden',
      });
      await outbox.changeGate('records', () => ({ destination: 'records', closedUntil: 0, failures: 0 }));
      expect(await outbox.gate('records')).toEqual({ destination: 'records', closedUntil: 0, failures: 0 });
    });

    it('loses no change of a gate that others change at the same time', async () => {
      const other = await store.reopen();
      await Promise.all([
        ...[outbox, other].flatMap(by =>
          Array.from({ length: 5 }, () =>
            by.changeGate('records', gate => ({ ...gate, failures: gate.failures + 1 })),
          ),
        ),
        other.changeGate('records', gate => ({ ...gate, closedUntil: 90 })),
      ]);
      expect(await outbox.gate('records')).toEqual({ destination: 'records', closedUntil: 90, failures: 10 });
    });

    it('purges what was done with long ago, and nothing that is still owed or was received lately', async () => {
      const received = (iso: string) =>
        ({ kind: 'delivered', receipt: { ...receipt, sentAt: iso } }) as const;
      await put({}, 1);
      await outbox.settle(await claim(1), received('1970-01-01T00:00:00.004Z'), 1);
      const late = await put({ caseKey: 'late' }, 2);
      await outbox.settle(await claim(2), received('1970-01-01T00:00:00.030Z'), 2);
      const waiting = await put({}, 3);
      const stuck = await put({}, 3);
      await outbox.park(stuck.id, parked);
      const young = await put({}, 4);
      await outbox.discard(young.id, { ...parked, at: 50 });
      const old = await put({}, 4);
      await outbox.discard(old.id, { ...parked, at: 5 });
      expect(await outbox.purge(10)).toBe(2);
      expect((await outbox.list()).map(i => i.id)).toEqual([late.id, waiting.id, stuck.id, young.id]);
    });

    it('claims like the model after any sequence of steps', async () => {
      await claimsLikeTheModel(outbox, 25);
    }, 120_000);

    it('is found whole, with every item', async () => {
      const item = await put({}, 1);
      const checked = await outbox.check();
      expect(checked.store).toEqual([]);
      expect(checked.items.map(({ id, item: held }) => [id, held?.digest])).toEqual([[item.id, item.digest]]);
    });
  });
  itemsContract(name, open);
}
