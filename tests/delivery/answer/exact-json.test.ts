import { describe, expect, it } from 'vitest';
import {
  isExactNumber,
  listAt,
  objectAt,
  parseExact,
  textAt,
  withEntries,
} from '../../../src/delivery/answer/exact-json.js';

describe('JSON that a server sent', () => {
  it.each(['null', 'true', '"x"', '4.20', '[{"a":"b"}]', '{}', '{"a":null}', '{"a":4.20}', '{"a":false}'])(
    'has nothing where %s is all there is',
    text => {
      const value = parseExact(text);
      expect([textAt(value, 'a'), listAt(value, 'a'), objectAt(value, 'a')]).toEqual([
        undefined,
        [],
        undefined,
      ]);
    },
  );

  it('has numbers, which keep their digits and are no objects', () => {
    const [number, object, text] = ['4.20', '{"value":"4.20"}', '"4.20"'].map(one => parseExact(one));
    expect([number, object, text].map(isExactNumber)).toEqual([true, false, false]);
  });

  it('is asked for texts, lists and objects, and answers with no other', () => {
    const value = parseExact('{"text":"","list":[null],"object":{"a":1.0}}');
    const keys = ['text', 'list', 'object', 'toString'];
    expect(keys.map(key => textAt(value, key))).toEqual(['', undefined, undefined, undefined]);
    expect(keys.map(key => listAt(value, key))).toEqual([[], [null], [], []]);
    expect(keys.map(key => objectAt(value, key))).toEqual([
      undefined,
      undefined,
      { a: { value: '1.0' } },
      undefined,
    ]);
  });

  it('has its entries rewritten with the digits of its numbers, and what is no entry left as it was', () => {
    const bundle = parseExact('{"total":2.0,"entry":[{"n":1.50},null,["x"],{}],"id":"b"}');
    expect(withEntries(bundle, (entry, index) => ({ ...entry, at: `${index}` }))).toBe(
      '{"total":2.0,"entry":[{"n":1.50,"at":"0"},null,["x"],{"at":"3"}],"id":"b"}',
    );
    expect(withEntries(parseExact('{}'), entry => entry)).toBe('{"entry":[]}');
    expect(withEntries(parseExact('[1.50]'), entry => entry)).toBe('[1.50]');
  });
});
