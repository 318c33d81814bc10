import { randomUUID } from 'node:crypto';
import type { Destination } from '../../../src/delivery/destination/destination.js';
import type { Outbox } from '../../../src/delivery/outbox/outbox.js';
import { digestOf } from '../../../src/delivery/request/submission.js';
import { resume } from '../../../src/delivery/worker/gates.js';
import { drain } from '../../../src/delivery/worker/worker.js';
import { corrected, destination, submissionText } from '../../delivery/samples.js';
import { LATE_MS } from './server.js';

/** What is sent in one round, and how. */
export interface Work {
  readonly mode: Destination['mode'];
  /** How far the server's searches are behind its writes, in milliseconds. */
  readonly lagMs: number;
  readonly cases: number;
  /** The cases are of so many patients. */
  readonly patients: number;
  /**
   * Two corrections of every other case: 'queued' with their originals, or stored during an 'outage' of the server
   * after those were delivered.
   */
  readonly corrections: 'none' | 'queued' | 'outage';
  readonly lanes: number;
  readonly leaseMs: number;
}

/** Called before and after each durable write and each request that writes. */
export type Step = () => void;

export const LOTS = ['L-17', 'L-18', 'L-19'] as const;
const OUTAGE_MS = 150;
/** How often a person retries what was refused. */
const RETRIES = 8;

/**
 * Takes the cases in that are not there yet, delivers everything, and does as a person would with what is parked. May
 * be called again after it was cut off.
 *
 * @param say 'ack case-1/0' for each version of a case taken in.
 * @param onlyDelivers true to deliver what another takes in, for ever.
 */
export async function workOff(
  work: Work,
  baseUrl: string,
  store: Outbox,
  step: Step,
  say: (line: string) => void,
  onlyDelivers = false,
): Promise<void> {
  const around = async <T>(call: () => Promise<T>): Promise<T> => {
    step();
    const result = await call();
    step();
    return result;
  };
  const stepping: ReadonlySet<string | symbol> = new Set(['put', 'claim', 'begin', 'settle', 'changeGate']);
  const outbox: Outbox = new Proxy(store, {
    get(target, name) {
      const member: unknown = Reflect.get(target, name);
      if (typeof member !== 'function') return member;
      return (...args: unknown[]) => {
        const call = () => member.apply(target, args);
        return stepping.has(name) ? around(call) : call();
      };
    },
  });
  const names = Array.from({ length: work.cases }, (_, i) => `case-${i}`);
  const take = async (versions: number) => {
    for (const [i, caseKey] of names.entries()) {
      const wanted = i % 2 === 0 ? versions : 1;
      for (let v = (await outbox.list({ caseKey })).length; v < wanted; v += 1) {
        const payload = v === 0 ? submissionText(caseKey) : corrected(caseKey, LOTS[v] ?? '');
        const item = { destination: 'd', caseKey, patientKey: `p${i % work.patients}`, payload };
        await outbox.put({ ...item, digest: digestOf(payload) }, Date.now());
        say(`ack ${caseKey}/${v}`);
      }
    }
  };
  const fetched: typeof fetch = (url, init) =>
    init?.method === 'POST' || init?.method === 'PUT' ? around(() => fetch(url, init)) : fetch(url, init);
  const target = {
    destination: destination(baseUrl, {
      name: 'd',
      mode: work.mode,
      timeoutMs: 300,
      searchLagMs: work.lagMs + 2 * LATE_MS,
    }),
    fetch: fetched,
  };
  const deliver = async () => {
    for (let left = RETRIES; ; ) {
      await drain({
        outbox,
        targets: [target],
        clock: Date.now,
        newId: randomUUID,
        random: () => 0,
        lanes: work.lanes,
        leaseMs: work.leaseMs,
        policy: {
          backoff: { baseMs: 5, capMs: 20 },
          breakerAfter: 5,
          breaker: { baseMs: 5, capMs: 20 },
          maxAgeMs: 600_000,
        },
      });
      const parked = await outbox.list({ states: ['parked'] });
      // Only what the server refused for its content: a conflict would be a fault of ours here.
      const refused = parked.filter(item => /^(invalid|entry-failed)$/.test(item.parked?.reason ?? ''));
      if (refused.length > 0 && left > 0) left -= 1;
      else {
        const open = await outbox.list({ states: ['waiting', 'sending'] });
        const held = new Set(parked.map(item => item.caseKey));
        if (open.every(item => held.has(item.caseKey))) return;
      }
      if (left > 0) for (const item of refused) await outbox.retry(item.id, Date.now());
      if ((await outbox.gate('d')).paused !== undefined) await resume(outbox, 'd');
      await new Promise(resolve => setTimeout(resolve, 10));
    }
  };
  while (onlyDelivers) {
    await deliver();
    await new Promise(resolve => setTimeout(resolve, 20));
  }
  await take(work.corrections === 'queued' ? LOTS.length : 1);
  await deliver();
  if (work.corrections !== 'outage') return;
  await fetch(new URL(`/down?ms=${OUTAGE_MS}`, baseUrl));
  await take(LOTS.length);
  await deliver();
}
