import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { NotDelivered } from '../../../src/delivery/answer/outcome.js';
import type { Verdict } from '../../../src/delivery/answer/verdict.js';
import { backoffMs } from '../../../src/delivery/worker/backoff.js';
import { decide, type GateEffect, RETRY_POLICY } from '../../../src/delivery/worker/decide.js';
import { gateAfter, lanesOpen } from '../../../src/delivery/worker/gates.js';

const NOW = 1_000_000;

function outcome(state: NotDelivered['state'], verdict: Partial<Verdict> = {}): NotDelivered {
  const full: Verdict = {
    state: 'refused',
    processed: 'no',
    next: 'person',
    scope: 'record',
    reason: 'invalid',
    ...verdict,
  };
  const sent = { requestId: 'r1', at: '2024-03-14T10:00:00.000Z', durationMs: 1, verdict: full };
  const attempts = state === 'not-sent' ? [] : [sent];
  return { state, ...(state !== 'not-sent' && { verdict: full }), issues: [], attempts, findings: [] };
}
const decideAt = (o: NotDelivered, createdAt = NOW) =>
  decide(o, { attempts: 0, createdAt }, NOW, 0.5, RETRY_POLICY);

describe('decide', () => {
  it.each<[string, NotDelivered, object, GateEffect['kind']]>([
    ['not sent', outcome('not-sent'), { kind: 'parked' }, 'nothing'],
    [
      'refused',
      outcome('refused'),
      { kind: 'parked', parked: { reason: 'invalid', by: 'casetally' } },
      'works',
    ],
    [
      'redirected',
      outcome('refused', { scope: 'destination', reason: 'redirect' }),
      { kind: 'again', unknown: false },
      'pauses',
    ],
    [
      'paused',
      outcome('destination-paused', { reason: 'forbidden' }),
      { kind: 'again', unknown: false },
      'pauses',
    ],
    ['several', outcome('conflict', { reason: 'several-matches' }), { kind: 'parked' }, 'works'],
    ['gone', outcome('conflict', { reason: 'gone' }), { kind: 'parked' }, 'works'],
    [
      '409 on create',
      outcome('conflict', { processed: 'maybe', next: 'search-identifier' }),
      { kind: 'again', unknown: true },
      'works',
    ],
    ['partial', outcome('partial'), { kind: 'parked' }, 'works'],
    ['throttled', outcome('throttled', { waitMs: 9_000 }), { kind: 'again', unknown: false }, 'waits'],
    ['unreachable', outcome('unreachable'), { kind: 'again', unknown: false }, 'fails'],
    [
      'throttled in the middle of several writes',
      outcome('throttled', { processed: 'partly', waitMs: 9_000 }),
      { kind: 'again', unknown: true },
      'waits',
    ],
    [
      'unknown',
      outcome('outcome-unknown', { processed: 'maybe' }),
      { kind: 'again', unknown: true },
      'fails',
    ],
    [
      'asked without an answer',
      { ...outcome('outcome-unknown', { processed: 'maybe' }), attempts: [] },
      { kind: 'again', unknown: 'as before' },
      'fails',
    ],
    [
      'echoed',
      outcome('outcome-unknown', { processed: 'maybe', reason: 'echoed' }),
      { kind: 'again', unknown: true },
      'pauses',
    ],
  ])('%s', (_what, o, settlement, gate) => {
    const decision = decideAt(o);
    expect(decision.settlement).toMatchObject(settlement);
    expect(decision.gate.kind).toBe(gate);
  });

  it('parks what has been tried for too long, and only what would be tried again', () => {
    const old = NOW - RETRY_POLICY.maxAgeMs;
    expect(decideAt(outcome('unreachable'), old).settlement).toMatchObject({
      kind: 'parked',
      parked: { reason: 'too-old' },
    });
    expect(decideAt(outcome('unreachable'), old + 1).settlement.kind).toBe('again');
    expect(decideAt(outcome('refused'), old).settlement).toMatchObject({ parked: { reason: 'invalid' } });
  });

  it('doubts what it parks, unless the destination certainly did not take it', () => {
    const old = NOW - RETRY_POLICY.maxAgeMs;
    const known = (o: NotDelivered, createdAt = NOW) => {
      const { settlement } = decideAt(o, createdAt);
      return settlement.kind === 'parked' && settlement.known;
    };
    expect(known(outcome('not-sent'))).toBe(true);
    expect(known(outcome('refused', { processed: 'no' }))).toBe(true);
    expect(known(outcome('refused', { processed: 'maybe' }))).toBe(false);
    expect(known(outcome('partial', { processed: 'partly' }))).toBe(false);
    expect(known(outcome('outcome-unknown', { processed: 'maybe' }), old)).toBe(false);
    expect(known(outcome('unreachable'), old)).toBe(true);
  });

  it('waits at least a second when a server asks for none', () => {
    expect(decideAt(outcome('throttled', { waitMs: 0 })).gate).toEqual({ kind: 'waits', waitMs: 1_000 });
  });
});

describe('backoffMs', () => {
  it.each([
    // Worked by hand: base + random * (min(cap, base * 2^attempt) - base).
    [1, 0, 100],
    [1, 0.5, 150],
    [3, 0.5, 450],
    [10, 1 - Number.EPSILON, 1000],
    [99, 0.5, 550],
  ])('attempt %d with %d gives %d ms', (attempt, random, expected) => {
    expect(backoffMs(attempt, random, { baseMs: 100, capMs: 1000 })).toBe(expected);
  });

  it('stays between base and cap', () => {
    fc.assert(
      fc.property(
        fc.integer({ min: 1, max: 1e6 }),
        fc.double({ min: 0, max: 1, maxExcluded: true, noNaN: true }),
        (attempt, random) => {
          const ms = backoffMs(attempt, random, { baseMs: 50, capMs: 7000 });
          expect(ms).toBeGreaterThanOrEqual(50);
          expect(ms).toBeLessThanOrEqual(7000);
        },
      ),
    );
  });
});

describe('gates', () => {
  const open = { destination: 'd', closedUntil: 0, failures: 0 };
  const fail = (gate: typeof open, times: number) => {
    let now = gate;
    for (let i = 0; i < times; i += 1) now = gateAfter(now, { kind: 'fails' }, NOW, 0, RETRY_POLICY);
    return now;
  };

  it('closes after five failures in a row, opens one lane to try, and all after a success', () => {
    const four = fail(open, 4);
    expect(lanesOpen(four, NOW, 4, RETRY_POLICY)).toBe(4);
    const five = fail(four, 1);
    expect(lanesOpen(five, NOW, 4, RETRY_POLICY)).toBe(0);
    expect(lanesOpen(five, five.closedUntil, 4, RETRY_POLICY)).toBe(1);
    const works = gateAfter(five, { kind: 'works' }, five.closedUntil, 0, RETRY_POLICY);
    expect(lanesOpen(works, five.closedUntil, 4, RETRY_POLICY)).toBe(4);
  });

  it('stays paused until a person opens it, whatever else comes', () => {
    const paused = gateAfter(open, { kind: 'pauses', reason: 'forbidden' }, NOW, 0, RETRY_POLICY);
    expect(lanesOpen(gateAfter(paused, { kind: 'works' }, NOW, 0, RETRY_POLICY), NOW, 4, RETRY_POLICY)).toBe(
      0,
    );
  });

  it('never shortens a wait that a server asked for', () => {
    const waits = gateAfter(open, { kind: 'waits', waitMs: 90_000 }, NOW, 0, RETRY_POLICY);
    expect(gateAfter(waits, { kind: 'waits', waitMs: 1_000 }, NOW, 0, RETRY_POLICY).closedUntil).toBe(
      NOW + 90_000,
    );
  });
});
