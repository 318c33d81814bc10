import { describe, expect, it } from 'vitest';
import type { Chosen, OutboxItem, Parked, Settlement } from '../../../src/delivery/outbox/outbox.js';
import {
  byPerson,
  type Change,
  holdsUp,
  isSame,
  openGate,
  sameGate,
  settled,
  settledAt,
  unreadable,
} from '../../../src/delivery/outbox/rules.js';
import { messageOf } from '../../../src/findings/finding.js';
import { delivery } from './samples.js';

const parked: Parked = { reason: 'invalid', by: 'casetally', at: 5, findings: [] };

describe('the end of an attempt', () => {
  it.each<[what: string, end: Settlement, change: Change]>([
    [
      'a receipt leaves no doubt and nothing said',
      { kind: 'delivered', receipt: delivery },
      { state: 'delivered', unknownSince: null, lastReason: 'accepted', parked: null, receipt: delivery },
    ],
    [
      'a send that may have taken effect is in doubt from now',
      { kind: 'again', notBefore: 50, reason: 'time-out', unknown: true, said: parked },
      { state: 'waiting', notBefore: 50, lastReason: 'time-out', unknownSince: 9, parked },
    ],
    [
      'a send that certainly took none is not',
      { kind: 'again', notBefore: 50, reason: 'rate-limit', unknown: false },
      { state: 'waiting', notBefore: 50, lastReason: 'rate-limit', unknownSince: null },
    ],
    [
      'no send leaves the doubt as it was',
      { kind: 'again', notBefore: 50, reason: 'not-asked', unknown: 'as before' },
      { state: 'waiting', notBefore: 50, lastReason: 'not-asked' },
    ],
    [
      'what needs a person is in doubt still',
      { kind: 'parked', parked },
      { state: 'parked', lastReason: 'invalid', parked },
    ],
    [
      'what needs a person and was not taken is not',
      { kind: 'parked', parked, known: true },
      { state: 'parked', lastReason: 'invalid', parked, unknownSince: null },
    ],
  ])('%s', (_what, end, change) => {
    expect(settled(end, 9)).toStrictEqual(change);
  });

  it('an item that cannot be opened is for a person, and is named', () => {
    const change = unreadable('i7', 9);
    expect(change).toEqual({
      state: 'parked',
      lastReason: 'unreadable',
      parked: { reason: 'unreadable', by: 'casetally', at: 9, findings: [expect.anything()] },
    });
    const [said] = change.parked?.findings ?? [];
    expect([said?.code, said?.path, said?.params]).toEqual([
      'delivery.item-unreadable',
      'outbox',
      { id: 'i7' },
    ]);
    expect(said && messageOf(said)).toContain('i7');
  });
});

describe('what a person may do', () => {
  const accepted = [{ field: 'name', sent: 'a', held: 'b', by: 'x', why: 'y', at: 1 }];

  it.each<[chosen: Chosen | undefined, kept: object]>([
    [undefined, {}],
    [{}, {}],
    [{ overwrite: false }, {}],
    [{ accepted }, { accepted }],
    [{ overwrite: true }, { overwrite: true }],
    [
      { accepted, overwrite: true },
      { accepted, overwrite: true },
    ],
  ])('with a retry, choosing %j', (chosen, kept) => {
    const due = { state: 'waiting', notBefore: 9, parked: null };
    expect(byPerson.retry.change(9, chosen)).toStrictEqual({ ...due, ...kept });
  });

  it('by parking or discarding, with what waits or is parked and no other', () => {
    expect(byPerson.park.change(parked)).toStrictEqual({ state: 'parked', lastReason: 'invalid', parked });
    expect(byPerson.discard.change(parked)).toStrictEqual({
      ...{ state: 'discarded', lastReason: 'invalid', parked },
    });
    expect([byPerson.retry.from, byPerson.park.from, byPerson.discard.from]).toEqual([
      ['waiting', 'parked'],
      ['waiting'],
      ['waiting', 'parked'],
    ]);
  });
});

it.each([
  ['a', undefined, 'a', undefined, true],
  ['a', undefined, 'b', undefined, false],
  ['a', undefined, 'a', true, false],
  ['a', undefined, 'a', false, true],
  ['a', true, 'a', true, true],
  ['a', true, 'a', undefined, true],
  ['a', true, 'b', true, false],
] as const)('newest %s (overwriting: %s) says what %s (%s) says: %s', (was, wasOver, is, isOver, same) => {
  const of = (digest: string, overwrite: boolean | undefined) => ({
    digest,
    ...(overwrite !== undefined && { overwrite }),
  });
  expect(isSame(of(was, wasOver), of(is, isOver))).toBe(same);
});

it('a gate differs by time, failures and the word for its pause, and by nothing else', () => {
  const gate = openGate('records');
  expect(gate).toStrictEqual({ destination: 'records', closedUntil: 0, failures: 0 });
  expect(sameGate(gate, { ...gate })).toBe(true);
  expect(sameGate({ ...gate, paused: 'a' }, { ...gate, paused: 'a' })).toBe(true);
  for (const other of [{ closedUntil: 1 }, { failures: 1 }, { paused: 'a' }])
    expect(sameGate(gate, { ...gate, ...other })).toBe(false);
});

const item: OutboxItem = {
  ...{ destination: 'records', caseKey: 'c', patientKey: 'p', payload: '{}', digest: 'sha256:1' },
  ...{ id: 'i1', sequence: 4, state: 'waiting', createdAt: 1, notBefore: 1, attempts: 0 },
};

describe('retention', () => {
  const at = Date.parse(delivery.sentAt);
  it.each<[what: string, item: Partial<OutboxItem>, at: number | undefined]>([
    ['what waits', {}, undefined],
    ['what waits and was parked', { parked }, undefined],
    ['what is parked', { state: 'parked', parked }, undefined],
    ['what was delivered', { state: 'delivered', receipt: delivery }, at],
    ['what was delivered, with something said', { state: 'delivered', receipt: delivery, parked }, at],
    ['what was delivered without a receipt', { state: 'delivered' }, undefined],
    [
      'what was delivered at no time',
      { state: 'delivered', receipt: { ...delivery, sentAt: 'x' } },
      undefined,
    ],
    ['what is sent again', { state: 'sending', receipt: delivery }, undefined],
    ['what was discarded', { state: 'discarded', parked }, 5],
    ['what was discarded after a receipt', { state: 'discarded', parked, receipt: delivery }, 5],
    ['what was discarded by nobody', { state: 'discarded' }, undefined],
  ])('counts for %s', (_what, more, expected) => {
    expect(settledAt({ ...item, ...more })).toBe(expected);
  });
});

it('only an earlier parked item of the same case at the same destination holds up', () => {
  const held = { ...item, state: 'parked' as const, parked };
  const later = { destination: 'records', caseKey: 'c', sequence: 5 };
  expect(holdsUp(held, later)).toBe(true);
  expect(holdsUp(item, later)).toBe(false);
  for (const other of [{ destination: 'other' }, { caseKey: 'd' }, { sequence: 4 }, { sequence: 3 }])
    expect(holdsUp(held, { ...later, ...other })).toBe(false);
});
