import fc from 'fast-check';
import { expect } from 'vitest';
import type { ItemState, Lease, Outbox } from '../../../src/delivery/outbox/outbox.js';
import type { Receipt } from '../../../src/delivery/receipt/receipt.js';

/** One item as the model knows it. */
interface Known {
  readonly id: string;
  readonly patient: string;
  readonly ofCase: string;
  state: ItemState;
  due: number;
  until: number;
  since: number | undefined;
}

/** A step of a test; `which` picks among what there is. */
type Step =
  | { readonly do: 'put'; readonly patient: number; readonly ofCase: number }
  | { readonly do: 'claim' }
  | { readonly do: 'wait'; readonly ms: number }
  | { readonly do: 'begin' | 'extend' | 'deliver' | 'park' | 'again' | 'asked'; readonly which: number }
  | { readonly do: 'retry' | 'discard' | 'parkIt'; readonly which: number };

const which = fc.nat(5);
const steps: fc.Arbitrary<Step[]> = fc.array(
  fc.oneof(
    {
      weight: 4,
      arbitrary: fc.record({ do: fc.constant('put' as const), patient: fc.nat(1), ofCase: fc.nat(1) }),
    },
    { weight: 6, arbitrary: fc.record({ do: fc.constant('claim' as const) }) },
    {
      weight: 2,
      arbitrary: fc.record({ do: fc.constant('wait' as const), ms: fc.constantFrom(20, 60, 100) }),
    },
    {
      weight: 6,
      arbitrary: fc.record({
        do: fc.constantFrom(...(['begin', 'extend', 'deliver', 'park', 'again', 'asked'] as const)),
        which,
      }),
    },
    {
      weight: 3,
      arbitrary: fc.record({ do: fc.constantFrom(...(['retry', 'discard', 'parkIt'] as const)), which }),
    },
  ),
  { minLength: 5, maxLength: 40 },
);

const LEASE_MS = 100;
const receipt: Receipt = {
  ...{ destination: 'd', baseUrl: 'https://fhir.example.org', requestId: 'r', digest: 'x', how: 'answered' },
  ...{ sentAt: '2024-03-14T10:00:00.000Z', entries: [], warnings: [] },
};

/**
 * The rule, said another way: each patient has a queue of what is open, in order of arrival, without what stands
 * behind a parked item of its case. Unless one of it is being sent under a lease that runs, its head may be claimed
 * when it is due; of all heads the one that came first goes first.
 */
function claimable(items: readonly Known[], now: number): Known | undefined {
  const heads = [...new Set(items.map(item => item.patient))].flatMap(patient => {
    const his = items.filter(item => item.patient === patient);
    if (his.some(({ state, until }) => state === 'sending' && until > now)) return [];
    const [head] = his.filter((item, at) => {
      const isOpen = item.state === 'waiting' || item.state === 'sending';
      return isOpen && !his.slice(0, at).some(b => b.ofCase === item.ofCase && b.state === 'parked');
    });
    return head && (head.state === 'sending' || head.due <= now) ? [head] : [];
  });
  return items.find(item => heads.includes(item));
}

/** Any sequence of steps leaves a store and the model of it agreeing about every claim, state and doubt. */
export async function claimsLikeTheModel(outbox: Outbox, numRuns: number): Promise<void> {
  let run = 0;
  await fc.assert(
    fc.asyncProperty(steps, async made => {
      run += 1;
      await play(outbox, `d${run}`, made);
    }),
    { numRuns },
  );
}

async function play(outbox: Outbox, destination: string, made: readonly Step[]): Promise<void> {
  const items: Known[] = [];
  const leases: { lease: Lease; item: Known; runs: () => boolean }[] = [];
  let now = 1_000;
  for (const [i, step] of made.entries()) {
    if (step.do === 'put') {
      const [patient, ofCase] = [`p${step.patient}`, `c${step.patient}${step.ofCase}`];
      const given = { destination, caseKey: ofCase, patientKey: patient, payload: `${i}`, digest: `${i}` };
      const { id } = await outbox.put(given, now);
      items.push({ id, patient, ofCase, state: 'waiting', due: now, until: 0, since: undefined });
    } else if (step.do === 'wait') now += step.ms;
    else if (step.do === 'claim') {
      const expected = claimable(items, now);
      const lease = await outbox.claim(destination, now, LEASE_MS);
      expect(lease?.item.id).toBe(expected?.id);
      if (!expected || !lease) continue;
      if (expected.state === 'sending' && expected.since !== undefined)
        expected.since = Math.max(expected.since, expected.until);
      expected.state = 'sending';
      expected.until = now + LEASE_MS;
      const { fence } = lease;
      const isNewest = () => !leases.some(l => l.item === expected && l.lease.fence > fence);
      leases.push({
        lease,
        item: expected,
        runs: () => expected.state === 'sending' && expected.until > now && isNewest(),
      });
    } else if (step.do === 'retry' || step.do === 'discard' || step.do === 'parkIt') {
      const item = items[step.which % Math.max(1, items.length)];
      if (!item) continue;
      const parked = { reason: 'a person', by: 'a person', at: now, findings: [] };
      const may = item.state === 'waiting' || (item.state === 'parked' && step.do !== 'parkIt');
      const done =
        step.do === 'retry'
          ? await outbox.retry(item.id, now)
          : await outbox[step.do === 'discard' ? 'discard' : 'park'](item.id, parked);
      expect(done).toBe(may);
      if (!may) continue;
      item.state = ({ retry: 'waiting', discard: 'discarded', parkIt: 'parked' } as const)[step.do];
      if (step.do === 'retry') item.due = now;
    } else await work(outbox, step.do, leases[step.which % Math.max(1, leases.length)], now);
    const kept = await outbox.list({ destination });
    expect(kept.map(({ id, state, unknownSince }) => [id, state, unknownSince])).toEqual(
      items.map(({ id, state, since }) => [id, state, since]),
    );
  }
}

async function work(
  outbox: Outbox,
  what: 'begin' | 'extend' | 'deliver' | 'park' | 'again' | 'asked',
  held: { lease: Lease; item: Known; runs: () => boolean } | undefined,
  now: number,
): Promise<void> {
  if (!held) return;
  const { lease, item } = held;
  const may = held.runs();
  const parked = { reason: 'refused', by: 'casetally', at: now, findings: [] };
  const again = { kind: 'again', notBefore: now + 50, reason: 'away' } as const;
  const steps = {
    begin: () => outbox.begin(lease, now),
    extend: () => outbox.extend(lease, now + 200, now),
    deliver: () => outbox.settle(lease, { kind: 'delivered', receipt }, now),
    park: () => outbox.settle(lease, { kind: 'parked', parked }, now),
    again: () => outbox.settle(lease, { ...again, unknown: true }, now),
    asked: () => outbox.settle(lease, { ...again, unknown: 'as before' }, now),
  };
  expect(await steps[what]()).toBe(may);
  if (!may) return;
  if (what === 'begin') item.since = now;
  if (what === 'extend') item.until = now + 200;
  if (what === 'deliver') Object.assign(item, { state: 'delivered', since: undefined });
  if (what === 'park') item.state = 'parked';
  if (what === 'again' || what === 'asked') Object.assign(item, { state: 'waiting', due: now + 50 });
  if (what === 'again') item.since = now;
}
