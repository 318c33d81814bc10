import { describe, expect, it } from 'vitest';
import type { OutboxItem, Parked } from '../../../src/delivery/outbox/outbox.js';
import {
  type ItemRow,
  itemAsFarAs,
  itemOf,
  joined,
  opened,
  resealed,
  sealItem,
  valuesOf,
} from '../../../src/delivery/outbox/rows.js';
import type { Change } from '../../../src/delivery/outbox/rules.js';
import { type Sealing, sealingWith, unsealed } from '../../../src/delivery/outbox/sealing.js';
import { CasetallyError } from '../../../src/findings/errors.js';
import { delivery } from './samples.js';

/** Shows what was sealed where, and opens that alone. */
const shown: Sealing = {
  keys: ['0123456789ab'],
  seal: (text, about) => `ct1.0123456789ab.${about}=${text}`,
  open(sealed, about) {
    const begin = `ct1.0123456789ab.${about}=`;
    if (sealed.startsWith(begin)) return sealed.slice(begin.length);
    throw new CasetallyError(sealed.startsWith('ct1.') ? 'outbox-unreadable' : 'outbox-key', 'no');
  },
};
const at = (column: string, value: object | string) =>
  `ct1.0123456789ab.i1/${column}=${typeof value === 'string' ? value : JSON.stringify(value)}`;

const parked: Parked = { reason: 'invalid', by: 'casetally', at: 5, findings: [] };
const accepted = [{ field: 'name', sent: 'a', held: 'b', by: 'x', why: 'y', at: 1 }];

const bare: ItemRow = {
  ...{ sequence: 4, id: 'i1', destination: 'records', case_key: 'c', patient_key: 'p' },
  ...{ payload: at('payload', '{"n":1.50}'), digest: 'sha256:1', context: null, state: 'waiting' },
  ...{ created_at: 1, not_before: 2, attempts: 0, unknown_since: null, last_reason: null, parked: null },
  ...{ receipt: null, accepted: null, fence: 9, lease_until: 8, overwrite: 0 },
};
const bareItem: OutboxItem = {
  ...{ id: 'i1', sequence: 4, destination: 'records', caseKey: 'c', patientKey: 'p' },
  ...{ payload: '{"n":1.50}', digest: 'sha256:1', state: 'waiting', createdAt: 1, notBefore: 2, attempts: 0 },
};
const full: ItemRow = {
  ...bare,
  ...{ context: at('context', '{"sources":1}'), unknown_since: 0, last_reason: 'invalid', overwrite: 1 },
  ...{ parked: at('parked', parked), receipt: at('receipt', delivery), accepted: at('accepted', accepted) },
};
const fullItem: OutboxItem = {
  ...bareItem,
  ...{ context: '{"sources":1}', overwrite: true, unknownSince: 0, lastReason: 'invalid' },
  ...{ parked, receipt: delivery, accepted },
};

describe('a row', () => {
  it.each([
    ['with nothing but what it was given', bare, bareItem],
    ['with everything', full, fullItem],
  ])('%s is the item', (_what, row, item) => {
    expect(itemOf(row, shown)).toStrictEqual(item);
    expect(itemAsFarAs(row, shown)).toStrictEqual(item);
    expect(opened(row, shown)).toStrictEqual({ id: 'i1', item });
  });

  it.each([
    ['payload', { payload: '' }],
    ['context', { context: undefined }],
    ['parked', { parked: undefined }],
    ['receipt', { receipt: undefined }],
    ['accepted', { accepted: undefined }],
  ] as const)('whose %s was moved from elsewhere is read without it', (column, without) => {
    const row = { ...full, [column]: at('elsewhere', '{}') };
    expect(() => itemOf(row, shown)).toThrow('no');
    expect(opened(row, shown)).toStrictEqual({ id: 'i1' });
    const { [column]: _gone, ...rest } = fullItem;
    expect(itemAsFarAs(row, shown)).toStrictEqual({
      ...rest,
      ...(column === 'payload' && without),
      unreadable: true,
    });
  });

  it.each(['parked', 'receipt', 'accepted'] as const)(
    'whose %s is no JSON was changed or cut, and its place is named',
    column => {
      const row = { ...full, [column]: at(column, '{"cut') };
      expect(() => itemOf(row, shown)).toThrow(
        new CasetallyError('outbox-unreadable', `What is kept at i1/${column} was changed or cut`),
      );
      const { [column]: _gone, ...rest } = fullItem;
      expect(itemAsFarAs(row, shown)).toStrictEqual({ ...rest, unreadable: true });
    },
  );

  it('whose payload and context are no JSON is read all the same: nobody asked them to be', () => {
    const row = { ...bare, payload: at('payload', '{'), context: at('context', '{') };
    expect(itemAsFarAs(row, shown)).toStrictEqual({ ...bareItem, payload: '{', context: '{' });
  });

  it('whose content is lost is no item, and is listed as one that cannot be read', () => {
    const { payload: _payload, context: _context, ...own } = full;
    const [lost] = joined([own], [{ sequence: 3, payload: 'of another', context: null }]);
    expect(lost).toStrictEqual({ ...full, payload: null, context: null });
    expect(() => itemOf(lost as ItemRow, shown)).toThrow(
      new CasetallyError('outbox-unreadable', 'What was kept at i1/payload is not there'),
    );
    const { context: _gone, ...rest } = fullItem;
    expect(itemAsFarAs(lost as ItemRow, shown)).toStrictEqual({ ...rest, payload: '', unreadable: true });
  });

  it('is found with its content, whether that stands beside it or in it', () => {
    const { payload, context, ...own } = full;
    const content = { sequence: 4, payload: payload ?? '', context };
    expect(joined([own], [{ ...content, sequence: 5 }, content])).toStrictEqual([full]);
    expect(joined([full], [])).toStrictEqual([full]);
  });

  it('whose key is not there is not taken for one that was changed', () => {
    const row = { ...full, parked: 'of another key' };
    expect(() => itemAsFarAs(row, shown)).toThrow(expect.objectContaining({ code: 'outbox-key' }));
    expect(opened(row, shown)).toStrictEqual({ id: 'i1' });
  });
});

describe('what is written', () => {
  it('of a new item is sealed, each text for its place', () => {
    const { payload, context, ...rest } = fullItem;
    expect(sealItem({ ...rest, payload, context: context ?? '' }, 'i1', shown)).toStrictEqual({
      payload: full.payload,
      context: full.context,
    });
    expect(sealItem(bareItem, 'i1', shown)).toStrictEqual({ payload: bare.payload, context: null });
    expect(sealItem({ ...bareItem, context: '' }, 'i1', shown).context).toBe(at('context', ''));
  });

  it.each<[Change, object]>([
    [{ state: 'waiting' }, { state: 'waiting' }],
    [
      { state: 'waiting', notBefore: 0, unknownSince: 0, lastReason: '' },
      { state: 'waiting', not_before: 0, unknown_since: 0, last_reason: '' },
    ],
    [
      { state: 'delivered', unknownSince: null, parked: null, receipt: delivery },
      { state: 'delivered', unknown_since: null, parked: null, receipt: at('receipt', delivery) },
    ],
    [
      { state: 'parked', parked, accepted, overwrite: true },
      { state: 'parked', parked: at('parked', parked), accepted: at('accepted', accepted), overwrite: 1 },
    ],
  ])('of %j is what it names, and no other column', (change, columns) => {
    expect(valuesOf(change, 'i1', shown)).toStrictEqual(Object.entries(columns));
  });
});

describe('another key', () => {
  const [key, old] = [1, 2].map(n => Buffer.alloc(32, n).toString('base64')) as [string, string];
  const both = sealingWith([key, old]);

  it('seals what is plain or of an older key anew, and leaves the rest', () => {
    const row: ItemRow = {
      ...bare,
      payload: both.seal('{"n":1}', 'i1/payload'),
      context: sealingWith([old]).seal('{"sources":1}', 'i1/context'),
      parked: '{"reason":"x"}',
    };
    const values = resealed(row, both);
    expect(values.map(([column]) => column)).toEqual(['context', 'parked']);
    const made = { ...row, ...Object.fromEntries(values) };
    const item = itemOf(made, sealingWith([key]));
    expect([item.payload, item.context, item.parked]).toEqual(['{"n":1}', '{"sources":1}', { reason: 'x' }]);
    expect(resealed(made, both)).toEqual([]);
  });

  it('is wanted for what is sealed with none of those given', () => {
    const row = { ...bare, payload: sealingWith([old]).seal('{}', 'i1/payload') };
    expect(() => resealed(row, sealingWith([key]))).toThrow(expect.objectContaining({ code: 'outbox-key' }));
  });

  it('is none where nothing is sealed: then nothing is changed', () => {
    expect(resealed({ ...bare, payload: '{}', parked: '{}' }, unsealed)).toEqual([]);
  });
});
