import { describe, expect, it } from 'vitest';
import { accountOf } from './account.js';

/** Codes of what is said of a thing that was locked, or filled, and came out with these words. */
function cameOut(kind: string, holding: string, words: Record<string, string>) {
  const { said } = accountOf({
    devices: { it: { kind, parts: { lock: { kind: 'retention thread' } } } },
    events: [
      { at: '09:00', do: 'insert', device: 'it' },
      { at: '09:01', do: holding, device: 'it' },
      { at: '09:02', do: 'remove', device: 'it', ...words },
      { at: '09:03', do: 'remove', device: 'it', part: 'lock' },
    ],
  });
  return said.map(line => line.split(' ')[1]);
}

// Common practice, no source.
describe('words of a removal', () => {
  it.each([
    'unlock',
    'Unlocked first',
    'after unlocking',
    'thread released',
    'loop releasing by itself',
    'string cut',
    'knot undone',
    'unpinned',
    'loop opened',
    'came straight',
    'straightened over the wire',
  ])('that tell that the loop was let go: %s', note =>
    expect(cameOut('locking drain', 'lock', { note })).toEqual([]),
  );

  it('that stand apart in what is said', () =>
    expect(cameOut('locking drain', 'lock', { result: 'fine', note: 'cut' })).toEqual([]));

  it.each(['still locked', 'uncut', 'came out by itself', 'loop reopened'])('that do not: %s', result =>
    expect(cameOut('locking drain', 'lock', { result })).toEqual(['tally.removed-locked']),
  );

  it.each([
    'deflated',
    'after Deflation',
    'emptied',
    'empty by then',
    'burst',
    'ruptured',
    'flat',
    'let down',
    'leaked',
  ])('that tell that the balloon was let down: %s', result =>
    expect(cameOut('balloon catheter', 'inflate', { result })).toEqual([]),
  );

  it.each(['inflated', 'flattened', 'full of contrast', 'outlet downwards'])('that do not: %s', note =>
    expect(cameOut('balloon catheter', 'inflate', { note })).toEqual(['tally.removed-inflated']),
  );
});
