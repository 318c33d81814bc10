import { describe, expect, it } from 'vitest';
import { checkKeys, type SealedBy } from '../../../src/delivery/outbox/keys-held.js';
import { unsealed } from '../../../src/delivery/outbox/sealing.js';

const [A, B] = ['aaaaaaaaaaaa', 'bbbbbbbbbbbb'];
const by = (key: string | null, items: number): SealedBy => ({ key, items });
const said = (held: SealedBy[], keys: string[], forRekey?: boolean): unknown => {
  try {
    return checkKeys(held, { ...unsealed, keys }, 'the place', forRekey);
  } catch (error) {
    return error;
  }
};

describe('keys that do not fit a store', () => {
  it.each<[held: SealedBy[], keys: string[], message: string]>([
    [
      [by(A, 1)],
      [],
      `The outbox in the place is sealed, and no key was given (1 item with the key ${A}): set CASETALLY_OUTBOX_KEY to that key. Nothing was changed.`,
    ],
    [
      [by(null, 3), by(A, 2)],
      [],
      `The outbox in the place is sealed, and no key was given (2 items with the key ${A}): set CASETALLY_OUTBOX_KEY to that key. Nothing was changed.`,
    ],
    [
      [by(A, 2), by(B, 1)],
      [A, 'cccccccccccc'],
      `The outbox in the place has 1 item sealed with the key ${B}, which is not among those given (${A}, cccccccccccc): add it to CASETALLY_OUTBOX_KEY, after the present one and a comma. Nothing was changed.`,
    ],
    [
      [by(null, 1), by(A, 2)],
      [A],
      "The outbox in the place has 1 item that is not sealed, and a key was given: seal what is there with 'casetally outbox rekey', or leave CASETALLY_OUTBOX_KEY out. Nothing was changed.",
    ],
    [
      [by(null, 2)],
      [A],
      "The outbox in the place has 2 items that are not sealed, and a key was given: seal what is there with 'casetally outbox rekey', or leave CASETALLY_OUTBOX_KEY out. Nothing was changed.",
    ],
  ])('are said, for %j and %j', (held, keys, message) => {
    expect(said(held, keys)).toMatchObject({ code: 'outbox-key', message });
  });

  it('are those missing alone where everything is to be sealed anew', () => {
    expect(said([by(null, 2), by(A, 1)], [A], true)).toBeUndefined();
    expect(said([by(null, 2), by(B, 1)], [A], true)).toMatchObject({ code: 'outbox-key' });
  });

  it.each<[held: SealedBy[], keys: string[]]>([
    [[], []],
    [[], [A]],
    [[by(null, 2)], []],
    [[by(A, 2)], [A]],
    [
      [by(A, 2), by(B, 1)],
      [B, A],
    ],
  ])('are none for %j and %j', (held, keys) => {
    expect(said(held, keys)).toBeUndefined();
  });
});
