import fc from 'fast-check';
import { parse as parseLossless, stringify as stringifyLossless } from 'lossless-json';
import { describe, expect, test } from 'vitest';
import { parseExact, parseJson } from '../../src/json/parse.js';
import { offsetOf, positionsOf } from '../../src/json/position.js';
import { writeFhirJson } from '../../src/json/write.js';

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
  const { offsets } = source;
  expect(position(offsetOf(offsets, root, 'a') ?? -1)).toEqual({ line: 2, column: 3 });
  expect(position(offsetOf(offsets, root.a, '1') ?? -1)).toEqual({ line: 4, column: 5 });
});

describe('parseExact', () => {
  // Outside source: the package lossless-json.
  const compared = (text: string) =>
    expect(writeFhirJson(parseExact(text), 0), text).toBe(stringifyLossless(parseLossless(text)));

  test('keeps what another reader of exact numbers keeps (lossless-json)', () => {
    fc.assert(
      fc.property(fc.jsonValue({ maxDepth: 6 }), fc.constantFrom(0, 1, 2), (value, indent) => {
        compared(JSON.stringify(value, null, indent));
      }),
      { numRuns: 300 },
    );
  });
  test.each([
    '{"a": 1.50, "b": [1e2, {"c": -0, "d": 0.30}], "e": 2}',
    '{"a": 123456789012345678901234567890.10}',
    String.raw`{"a\"b": "c\\", "d": ["\"", "x"], "e\\": {"f": "\u0041"}}`,
    '[[], {}, [[1.0]], "", null, true, false]',
    '1.0',
    '"a"',
  ])('%s', text => {
    compared(text);
  });
  test.each([
    ['{"a": 1.0', /end/],
    ['', /end/],
    ['{"a": 1, "a": 2}', /duplicate at 9/],
    [`${'['.repeat(250)}${']'.repeat(250)}`, /depth/],
  ])('%s is refused', (text, why) => {
    expect(() => parseExact(text)).toThrow(why);
    expect(() => parseExact(text)).toThrow(SyntaxError);
  });
});
