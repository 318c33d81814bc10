import { describe, expect, it } from 'vitest';
import { mapAtOnce } from '../../../src/delivery/http/at-once.js';

describe('mapAtOnce', () => {
  it('keeps the order, and never has more going than lanes', async () => {
    let going = 0;
    let most = 0;
    const result = await mapAtOnce(
      [5, 1, 4, 2, 3],
      async n => {
        going += 1;
        most = Math.max(most, going);
        await new Promise(resolve => setTimeout(resolve, n * 3));
        going -= 1;
        return n * 10;
      },
      undefined,
      2,
    );
    expect(result).toEqual([50, 10, 40, 20, 30]);
    expect(most).toBe(2);
  });

  it('begins nothing more once it is enough', async () => {
    const begun: number[] = [];
    const work = async (n: number) => {
      begun.push(n);
      return n;
    };
    expect(await mapAtOnce([1, 2, 3, 4, 5], work, n => n === 2, 1)).toEqual([1, 2]);
    expect(begun).toEqual([1, 2]);
  });
});
