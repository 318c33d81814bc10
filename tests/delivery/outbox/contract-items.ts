import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import type { Gate, ItemState, Lease, NewItem, Outbox, Parked } from '../../../src/delivery/outbox/outbox.js';
import { delivery as receipt } from './samples.js';

/** What the suite needs to know of a store. */
export interface StoreUnderTest {
  readonly outbox: Outbox;
  /** Opens a second one on the same data, or the same when there is no second. */
  reopen(): Promise<Outbox>;
  cleanUp(): Promise<void>;
}

const parked: Parked = { reason: 'invalid', by: 'casetally', at: 5, findings: [] };
const said: Parked = { reason: 'unavailable', by: 'casetally', at: 6, findings: [], answer: '<html>' };
const accepted = [{ field: 'name', sent: 'a', held: 'b', by: 'x', why: 'y', at: 1 }];

/** What each store gives back of an item, whole, after each step. */
export function itemsContract(name: string, open: () => Promise<StoreUnderTest>): void {
  describe(`items of an outbox: ${name}`, () => {
    let store: StoreUnderTest;
    let outbox: Outbox;
    beforeEach(async () => {
      store = await open();
      outbox = store.outbox;
    });
    afterEach(() => store.cleanUp());

    const item = (of: string, more: Partial<NewItem> = {}): NewItem => ({
      ...{ destination: 'records', caseKey: of, patientKey: `patient of ${of}` },
      ...{ payload: `{"of":"${of}","n":1.50}`, digest: `sha256:${of}` },
      ...more,
    });
    const claim = async (now: number, destination = 'records'): Promise<Lease> => {
      const lease = await outbox.claim(destination, now, 100);
      if (!lease) throw new Error('nothing to claim');
      return lease;
    };

    it('are what they were given at each step, and nothing beside it', async () => {
      const given = item('a', { context: '{"sources":1}' });
      const put = await outbox.put(given, 7);
      const base = { ...given, id: put.id, sequence: put.sequence, createdAt: 7 };
      const isNow = async (expected: object) => {
        expect(await outbox.get(put.id)).toStrictEqual({ ...base, ...expected });
        expect(await outbox.list()).toStrictEqual([{ ...base, ...expected }]);
      };
      const fresh = { ...base, state: 'waiting', notBefore: 7, attempts: 0 } as const;
      expect(put).toStrictEqual(fresh);
      await isNow(fresh);

      const first = await claim(7);
      const held = { ...fresh, state: 'sending' } as const;
      expect(first).toStrictEqual({ item: held, fence: 1, until: 107 });
      await isNow(held);
      await outbox.begin(first, 8);
      await isNow({ ...held, attempts: 1, unknownSince: 8 });
      await outbox.settle(
        first,
        { kind: 'again', notBefore: 50, reason: 'unavailable', unknown: true, said },
        9,
      );
      const again = {
        ...{ ...fresh, notBefore: 50, attempts: 1, unknownSince: 9 },
        ...{ lastReason: 'unavailable', parked: said },
      };
      await isNow(again);

      const second = await claim(50);
      expect(second).toStrictEqual({ item: { ...again, state: 'sending' }, fence: 2, until: 150 });
      await outbox.settle(second, { kind: 'parked', parked, known: true }, 51);
      const { unknownSince: _known, ...sure } = again;
      const stopped = { ...sure, state: 'parked', lastReason: 'invalid', parked };
      await isNow(stopped);
      await outbox.retry(put.id, 60, { accepted, overwrite: true });
      const chosen = {
        ...fresh,
        notBefore: 60,
        attempts: 1,
        lastReason: 'invalid',
        accepted,
        overwrite: true,
      };
      await isNow(chosen);
      await outbox.settle(await claim(60), { kind: 'delivered', receipt }, 61);
      await isNow({ ...chosen, state: 'delivered', lastReason: 'accepted', receipt });
    });

    it('are each settled by the lease on them, once', async () => {
      await outbox.put(item('a'), 0);
      await outbox.put(item('b'), 0);
      const [a, b] = [await claim(0), await claim(0)];
      const states = async () => (await outbox.list()).map(({ caseKey, state }) => [caseKey, state]);
      expect(await outbox.settle(b, { kind: 'delivered', receipt }, 1)).toBe(true);
      expect(await states()).toEqual([
        ['a', 'sending'],
        ['b', 'delivered'],
      ]);
      expect(await outbox.settle(b, { kind: 'parked', parked }, 2)).toBe(false);
      expect(await outbox.begin(b, 2)).toBe(false);
      expect(await outbox.extend(b, 500, 2)).toBe(false);
      expect(await outbox.begin({ ...a, fence: a.fence + 1 }, 2)).toBe(false);
      expect(await outbox.extend(a, 500, 2)).toBe(true);
      const last = { kind: 'again', notBefore: 9, reason: 'x', unknown: false } as const;
      expect(await outbox.settle(a, last, 499)).toBe(true);
      expect(await outbox.settle(a, last, 499)).toBe(false);
      expect(await states()).toEqual([
        ['a', 'waiting'],
        ['b', 'delivered'],
      ]);
      expect((await outbox.list()).map(({ attempts }) => attempts)).toEqual([0, 0]);
    });

    it('obey a person only in the states that a person may change', async () => {
      const { id } = await outbox.put(item('a'), 0);
      await outbox.put(item('b'), 0);
      const steps = { retry: () => outbox.retry(id, 9), park: () => outbox.park(id, parked) };
      expect([await outbox.retry('no such', 9), await outbox.park('no such', parked)]).toEqual([
        false,
        false,
      ]);
      expect(await outbox.discard('no such', parked)).toBe(false);
      expect(await steps.retry()).toBe(true);
      expect(await outbox.get(id)).toMatchObject({ state: 'waiting', notBefore: 9 });
      expect(await steps.park()).toBe(true);
      expect(await steps.park()).toBe(false);
      expect(await outbox.discard(id, said)).toBe(true);
      expect(await outbox.get(id)).toMatchObject({
        state: 'discarded',
        parked: said,
        lastReason: 'unavailable',
      });
      expect([await steps.retry(), await steps.park(), await outbox.discard(id, parked)]).toEqual([
        ...[false, false, false],
      ]);
      expect((await outbox.list()).map(({ state }) => state)).toEqual(['discarded', 'waiting']);
    });

    it('of one case or patient hold up nothing at another destination', async () => {
      const of = (destination: string, n: number) =>
        outbox.put(item('a', { destination, digest: `sha256:${n}` }), 0);
      const first = await of('other', 1);
      await of('records', 1);
      expect((await claim(0, 'other')).item.id).toBe(first.id);
      const here = await claim(0);
      await outbox.settle(here, { kind: 'parked', parked }, 0);
      await of('other', 2);
      await outbox.settle({ ...(await claim(100, 'other')) }, { kind: 'delivered', receipt }, 100);
      expect((await claim(100, 'other')).item.digest).toBe('sha256:2');
    });

    it('said again are the newest of the case that was not discarded', async () => {
      const a = await outbox.put(item('a'), 0);
      const b = await outbox.put(item('a', { digest: 'sha256:b' }), 0);
      await outbox.discard(b.id, parked);
      expect((await outbox.put(item('a'), 1)).id).toBe(a.id);
      const others = [
        await outbox.put(item('a', { caseKey: 'z' }), 1),
        await outbox.put(item('a', { destination: 'other' }), 1),
      ];
      expect(new Set([a.id, ...others.map(({ id }) => id)]).size).toBe(3);
      expect(await outbox.put(item('a'), 1)).toStrictEqual(await outbox.get(a.id));
    });

    it('are found by all that is asked at once, and by their state alone', async () => {
      const all = [
        await outbox.put(item('a'), 0),
        await outbox.put(item('a', { destination: 'other' }), 0),
        await outbox.put(item('b', { patientKey: 'patient of a' }), 0),
      ];
      const [first, second, third] = all.map(({ id }) => id);
      await outbox.park(third ?? '', parked);
      const ids = async (filter: Parameters<Outbox['list']>[0]) =>
        (await outbox.list(filter)).map(({ id }) => id);
      expect(await ids({ destination: 'records', patientKey: 'patient of a' })).toEqual([first, third]);
      expect(await ids({ destination: 'records', patientKey: 'patient of a', limit: 1 })).toEqual([first]);
      expect(await ids({ destination: 'other', caseKey: 'a', states: ['waiting'] })).toEqual([second]);
      expect(await ids({ caseKey: 'b', states: ['waiting'] })).toEqual([]);
      expect(await ids({ states: [] })).toEqual([]);
      expect(await ids({ limit: 0 })).toEqual([]);
      expect(await outbox.idsOf('waiting')).toEqual([first, second]);
      expect(await outbox.idsOf('parked')).toEqual([third]);
      expect(await outbox.idsOf('discarded')).toEqual([]);
    });

    it('are counted for each destination, by state, with the oldest that is not done with', async () => {
      const empty = { waiting: 0, sending: 0, parked: 0, delivered: 0, unknown: 0 };
      expect(await outbox.depths()).toEqual([]);
      const to = (destination: string, caseKey: string, at: number) =>
        outbox.put(item(caseKey, { destination }), at);
      await to('z done', 'a', 1);
      await outbox.settle(await claim(1, 'z done'), { kind: 'delivered', receipt }, 2);
      await outbox.discard((await to('y gone', 'a', 2)).id, parked);
      const stuck = await to('records', 'a', 4);
      const unsure = await claim(4);
      await outbox.begin(unsure, 4);
      await outbox.settle(unsure, { kind: 'parked', parked }, 4);
      await to('records', 'b', 5);
      await outbox.settle(await claim(5), { kind: 'again', notBefore: 9, reason: 'x', unknown: true }, 6);
      await to('records', 'c', 7);
      await to('records', 'd', 8);
      await claim(8);
      expect(await outbox.depths()).toStrictEqual([
        { destination: 'records', ...empty, waiting: 2, sending: 1, parked: 1, unknown: 1, oldest: 4 },
        { destination: 'y gone', ...empty },
        { destination: 'z done', ...empty, delivered: 1 },
      ]);
      await outbox.discard(stuck.id, parked);
      expect((await outbox.depths())[0]).toMatchObject({ parked: 0, unknown: 1, oldest: 5 });
    });

    it('fall due when they wait or are being sent, and in no other state', async () => {
      const states: [ItemState, number][] = [
        ['delivered', 1],
        ['parked', 2],
        ['discarded', 3],
      ];
      for (const [state, at] of states) {
        const { id } = await outbox.put(item(state), at);
        if (state === 'delivered') await outbox.settle(await claim(at), { kind: 'delivered', receipt }, at);
        else await outbox[state === 'parked' ? 'park' : 'discard'](id, parked);
      }
      expect(await outbox.nextDue(['records'])).toBeUndefined();
      await outbox.put(item('late'), 90);
      await outbox.put(item('early'), 40);
      expect(await outbox.nextDue(['records'])).toBe(40);
      expect(await outbox.nextDue(['other', 'records'])).toBe(40);
      expect(await outbox.nextDue(['other'])).toBeUndefined();
      expect(await outbox.nextDue([])).toBeUndefined();
    });

    it('are purged when they were done with before the time, not at it', async () => {
      const { id } = await outbox.put(item('a'), 0);
      await outbox.put(item('b'), 0);
      const at = { ...receipt, sentAt: '1970-01-01T00:00:00.010Z' };
      await outbox.settle(await claim(0), { kind: 'delivered', receipt: at }, 0);
      expect(await outbox.purge(10)).toBe(0);
      expect((await outbox.get(id))?.state).toBe('delivered');
      expect(await outbox.purge(11)).toBe(1);
      expect((await outbox.list()).map(({ caseKey }) => caseKey)).toEqual(['b']);
    });

    it('are left as they are by keys that did not change, and found whole', async () => {
      const all = [await outbox.put(item('a'), 0), await outbox.put(item('b'), 0)];
      expect(await outbox.rekey()).toBe(0);
      expect(await outbox.check()).toStrictEqual({ store: [], items: all.map(i => ({ id: i.id, item: i })) });
    });

    it('have a gate for each destination, changed when something changes', async () => {
      const openGate = { destination: 'records', closedUntil: 0, failures: 0 };
      const closed = { ...openGate, closedUntil: 9, failures: 1 };
      const seen: Gate[] = [];
      const change = (made: Gate) =>
        outbox.changeGate('records', gate => {
          seen.push(gate);
          return made;
        });
      await change(openGate);
      await change(closed);
      await change({ ...closed, paused: 'forbidden' });
      await change(closed);
      expect(seen).toStrictEqual([openGate, openGate, closed, { ...closed, paused: 'forbidden' }]);
      expect(await outbox.gate('records')).toStrictEqual(closed);
      expect(await outbox.gate('other')).toStrictEqual({ ...openGate, destination: 'other' });
    });
  });
}
