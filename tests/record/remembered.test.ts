import { describe, expect, it } from 'vitest';
import { remembered } from '../../src/record/remembered.js';

describe('a function of a text that remembers', () => {
  const counted = () => {
    const asked: string[] = [];
    const length = remembered(text => {
      asked.push(text);
      return text === '' ? undefined : text.length;
    });
    return { asked, length };
  };

  it('works a text out once, one that gives nothing as well', () => {
    const { asked, length } = counted();
    expect(['ab', 'ab', '', '', 'abc', 'ab'].map(length)).toEqual([2, 2, undefined, undefined, 3, 2]);
    expect(asked).toEqual(['ab', '', 'abc']);
  });

  it('gives what another text gave to no other, whatever its name', () => {
    const { length } = counted();
    expect(['constructor', '__proto__', 'has'].map(length)).toEqual([11, 9, 3]);
  });

  it('remembers no long text, and not more than a thousand', () => {
    const { asked, length } = counted();
    const long = 'x'.repeat(1_001);
    expect([length(long), length(long)]).toEqual([1_001, 1_001]);
    expect(asked).toHaveLength(2);
    for (let i = 0; i <= 1_000; i++) length(`text ${i}`);
    length('text 1000');
    expect(asked).toHaveLength(1_003);
    expect(length('text 0')).toBe(6);
    expect(asked).toHaveLength(1_004);
  });

  it('remembers nothing of a text that it could not work out', () => {
    const twice: string[] = [];
    const fails = remembered(text => {
      twice.push(text);
      throw new RangeError(text);
    });
    expect(() => fails('a')).toThrow(RangeError);
    expect(() => fails('a')).toThrow(RangeError);
    expect(twice).toHaveLength(2);
  });
});
