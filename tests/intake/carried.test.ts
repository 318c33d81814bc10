import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { carriedOnce } from '../../src/intake/carried.js';
import type { Contribution, SourceKind, Typed } from '../../src/intake/contribution.js';

interface Drain {
  readonly key?: string;
  readonly kind?: string;
  readonly udi?: string;
  readonly lot?: string;
  readonly date?: string;
}
function source(from: SourceKind, ...drains: readonly Drain[]): Contribution {
  const values = drains.flatMap(({ key = 'drain', kind = 'nephrostomy catheter', date, ...fields }) =>
    Object.entries<Typed>({ kind, ...fields, ...(date && { carried: { date } }) }).map(([name, value]) => ({
      ...{ path: ['devices', key, name], value, as: 'set' as const },
    })),
  );
  return { from, at: '2026-06-01T08:12:00Z', values, findings: [] };
}
const devices = (all: readonly Contribution[]) =>
  all.map(({ from, values }) => [from, [...new Set(values.map(({ path }) => path[1]))]]);

describe('devices that several sources have from before', () => {
  it.each([
    ['lot', { udi: '1', lot: 'A' }, { udi: '1', lot: 'A' }],
    ['kind and day', { date: '2026-01-02' }, { kind: 'Nephrostomy catheter', date: '2026-01-02', lot: 'A' }],
  ])('come once, from the one that knows best: by %s', (_, a, b) => {
    expect(devices(carriedOnce([source('order', a), source('register', b)]))).toEqual([
      ['order', []],
      ['register', ['drain']],
    ]);
  });

  it.each([
    ['another lot', { udi: '1', lot: 'A', date: '2026-01-02' }, { udi: '1', lot: 'B', date: '2026-01-02' }],
    ['another day', { date: '2026-01-02' }, { date: '2026-01-03' }],
    ['a day that nobody knows', { date: '2026-01-02' }, {}],
    ['another kind', { date: '2026-01-02' }, { kind: 'ureteric stent', date: '2026-01-02' }],
  ])('are two with %s, under keys of their own', (_, a, b) => {
    expect(devices(carriedOnce([source('order', a), source('register', b)]))).toEqual([
      ['order', ['drain-2']],
      ['register', ['drain']],
    ]);
  });

  it('two alike in one source stay two', () => {
    const two = [
      { key: 'a', date: '2026-01-02' },
      { key: 'b', date: '2026-01-02' },
    ];
    expect(devices(carriedOnce([source('order', ...two)]))).toEqual([['order', ['a', 'b']]]);
  });

  it('never become one with another, whatever the order of the sources', () => {
    const drain = fc.record(
      {
        key: fc.constantFrom('a', 'b'),
        lot: fc.constantFrom('A', 'B'),
        udi: fc.constant('1'),
        date: fc.constantFrom('2026-01-02', '2026-01-03'),
      },
      { requiredKeys: ['key'] },
    );
    const sources = fc.tuple(
      ...(['register', 'earlier case', 'order'] as const).map(from =>
        fc.uniqueArray(drain, { selector: ({ key }) => key, maxLength: 2 }).map(all => source(from, ...all)),
      ),
    );
    fc.assert(
      fc.property(sources, all => {
        const made = carriedOnce(all);
        const keys = made.flatMap(({ values }) => [...new Set(values.map(({ path }) => path[1]))]);
        expect(new Set(keys).size).toBe(keys.length);
        const sorted = (some: readonly Contribution[]) => some.toSorted((a, b) => (a.from < b.from ? -1 : 1));
        expect(sorted(carriedOnce(all.toReversed()))).toEqual(sorted(made));
      }),
    );
  });
});
