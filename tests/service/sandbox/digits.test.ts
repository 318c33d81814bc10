import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { parseBody, writeBody } from '../../../src/service/sandbox/digits.js';

const basic = { resourceType: 'Basic' as const, id: 'a', code: { text: 'b' } };

const write = (text: string) => {
  const { value, digits } = parseBody(text);
  if (typeof value !== 'object' || value === null) throw new Error('no object');
  return writeBody({ ...value, resourceType: 'Basic' } as Parameters<typeof writeBody>[0], () =>
    digits.get(value),
  );
};

describe('digits', () => {
  it.each(['4.20', '5.0', '0.700', '120', '1.0000000000000000001', '-0.10', '12345678901234567.89'])(
    'keeps %s',
    number => {
      expect(write(`{"a":[{"value":${number}}]}`)).toBe(`{"a":[{"value":${number}}],"resourceType":"Basic"}`);
    },
  );

  it('keeps them for each resource of a Bundle and for a Bundle inside one', () => {
    const text = '{"entry":[{"resource":{"v":1.0}},{"resource":{"entry":[{"resource":{"v":2.50}}]}}]}';
    const { value, digits } = parseBody(text);
    const [first, second] = (value as { entry: { resource: object }[] }).entry;
    expect(digits.get(first!.resource)).toEqual(new Map([['.v', '1.0']]));
    expect(digits.get(second!.resource)).toEqual(new Map([['.entry.0.resource.v', '2.50']]));
  });

  it('writes what JSON.stringify would when no digits are at stake', () => {
    fc.assert(
      fc.property(fc.dictionary(fc.string(), fc.jsonValue()), value => {
        const body = { ...value, ...basic };
        expect(writeBody(body, () => undefined)).toBe(JSON.stringify(body));
      }),
    );
  });
});
