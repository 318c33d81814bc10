import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import type { ParsedJson } from '../../../src/conformance/json/parse.js';
import { parseJson } from '../../../src/conformance/json/parse.js';
import { offsetOf, positionsOf } from '../../../src/conformance/json/position.js';
import { readJson } from '../../../src/conformance/json/read.js';

describe('parseJson', () => {
  test('gives what JSON.parse gives, however it is written', () => {
    fc.assert(
      fc.property(fc.jsonValue({ maxDepth: 6 }), fc.constantFrom(0, 1, 2), (value, indent) => {
        const text = JSON.stringify(value, null, indent);
        const parsed = parseJson(text);
        expect(parsed.problems).toEqual([]);
        expect(JSON.stringify(parsed.value)).toBe(JSON.stringify(JSON.parse(text)));
      }),
      { numRuns: 300 },
    );
  });
  test('refuses exactly what JSON.parse refuses', () => {
    fc.assert(
      fc.property(
        fc.jsonValue(),
        fc.nat(),
        fc.constantFrom('', ',', '}', ']', '"', ':', '0', '\\', '\u0001', 'x', '-', '.'),
        (value, at, put) => {
          const whole = JSON.stringify(value);
          const place = at % (whole.length + 1);
          const text = whole.slice(0, place) + put + whole.slice(place + (put === '' ? 1 : 0));
          let accepted = true;
          try {
            JSON.parse(text);
          } catch {
            accepted = false;
          }
          const parsed = parseJson(text);
          expect(parsed.value !== undefined, text).toBe(accepted);
          if (!accepted) expect(parsed.problems.at(-1)).toMatchObject({ kind: 'syntax' });
        },
      ),
      { numRuns: 1000 },
    );
  });
  test('keeps the digits of numbers that JavaScript would write otherwise', () => {
    const { value, source } = parseJson('{"a": 1.50, "b": 2, "c": [1e2, 0.30]}');
    const root = value as { a: number; c: number[] };
    expect(source.numbers.get(root)).toEqual(new Map([['a', '1.50']]));
    expect(source.numbers.get(root.c)).toEqual(
      new Map([
        ['0', '1e2'],
        ['1', '0.30'],
      ]),
    );
  });
  test('a member named __proto__ is a member', () => {
    const { value } = parseJson('{"__proto__": {"polluted": true}}');
    expect(Object.keys(value as object)).toEqual(['__proto__']);
    expect(({} as { polluted?: boolean }).polluted).toBeUndefined();
  });
  test('the second of two equal names is pointed at', () => {
    const text = '{"a": 1,\n "a": 2}';
    const { problems } = parseJson(text);
    expect(problems).toEqual([{ kind: 'duplicate', offset: text.lastIndexOf('"a"'), detail: 'a' }]);
  });
});

test('positions count lines and columns from 1', () => {
  const text = '{\n  "a": [\n    1,\n    22\n  ]\n}';
  const { value, source } = parseJson(text);
  const position = positionsOf(text);
  const root = value as { a: number[] };
  const offsets = source.offsets(new Set([root, root.a]));
  expect(position(offsetOf(offsets, root, 'a') ?? -1)).toEqual({ line: 2, column: 3 });
  expect(position(offsetOf(offsets, root.a, '1') ?? -1)).toEqual({ line: 4, column: 5 });
});

describe('readJson', () => {
  const compared = (text: string) => {
    const [quick, careful] = [readJson(text), parseJson(text)];
    expect(JSON.stringify(quick.value), text).toBe(JSON.stringify(careful.value));
    expect(quick.problems).toEqual(careful.problems);
    const places = (parsed: ParsedJson) => {
      const owners = ownersIn(parsed.value);
      const offsets = parsed.source.offsets(new Set(owners));
      return owners.map(o => [offsets.get(o), parsed.source.numbers.get(o)]);
    };
    expect(places(quick), text).toEqual(places(careful));
  };
  test('finds the same values, places and digits as the careful parser', () => {
    fc.assert(
      fc.property(fc.jsonValue({ maxDepth: 6 }), fc.constantFrom(0, 1, 2), (value, indent) => {
        compared(JSON.stringify(value, null, indent));
      }),
      { numRuns: 500 },
    );
  });
  test.each([
    '{"a": 1.50, "b": [1e2, {"c": -0, "d": 0.30}], "e": 2}',
    String.raw`{"a"b": "c\", "d": ["\"", "x"], "e\": {"f": "A"}}`,
    '{"a": 1, "a": {"b": 2}, "c": [3.0]}',
    '{"a": {"b": 1}, "a": 2.0}',
    '{"b": 1.0, "2": {"c": 3}, "1": 4}',
    '{"1": 1.0, "2": 2.0}',
    '{"__proto__": {"a": 1.0}, "b": []}',
    '[[], {}, [[1.0]], "", null, true, false]',
    ' {} ',
    '1.0',
    '"a"',
    '\ufeff{"a": 1.0}',
    '{"a": 1.0',
    '',
    `${'['.repeat(250)}${']'.repeat(250)}`,
  ])('%s', text => compared(text));
});

function ownersIn(value: unknown): object[] {
  if (typeof value !== 'object' || value === null) return [];
  return [value, ...Object.values(value).flatMap(ownersIn)];
}
