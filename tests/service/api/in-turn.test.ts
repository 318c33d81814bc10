import { describe, expect, it } from 'vitest';
import { inTurn } from '../../../src/service/api/in-turn.js';

describe('work in turn', () => {
  it('is done in the order in which it was asked for, one piece in each round of the event loop', async () => {
    const turn = inTurn();
    const order: string[] = [];
    const asked = ['a', 'b', 'c'].map(name => turn(() => order.push(name)));
    const rounds: number[] = [];
    while (order.length < 3) {
      rounds.push(order.length);
      await new Promise(resolve => setImmediate(resolve));
    }
    expect(await Promise.all(asked)).toEqual([1, 2, 3]);
    expect(order).toEqual(['a', 'b', 'c']);
    // Other callbacks ran between the pieces.
    expect(rounds).toEqual(expect.arrayContaining([0, 1, 2]));
  });

  it('that fails is told to who asked, and keeps nobody else from it', async () => {
    const turn = inTurn();
    const [wrong, right] = [
      turn(() => {
        throw new Error('it cannot be merged');
      }),
      turn(() => 'merged'),
    ];
    await expect(wrong).rejects.toThrow('it cannot be merged');
    expect(await right).toBe('merged');
  });

  it('is not taken on where too many wait, and is again once they are done', async () => {
    const turn = inTurn(2);
    const waiting = [turn(() => 1), turn(() => 2)];
    expect(turn(() => 3)).toBe(undefined);
    expect(await Promise.all(waiting)).toEqual([1, 2]);
    expect(await turn(() => 4)).toBe(4);
  });
});
