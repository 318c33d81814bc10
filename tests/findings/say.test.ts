import { describe, expect, it } from 'vitest';
import { lexicon } from '../../src/findings/say.js';

describe('dates in English', () => {
  // A case without a time has no offset: its report must not get the words of the command line, nor the other way round.
  it('are as people read them in a report, and as the record has them elsewhere, whichever is asked for first', () => {
    const day = { day: '2024-05-22' };
    expect(lexicon('en-GB').text(day)).toBe('2024-05-22');
    expect(lexicon('en-GB', '').text(day)).toBe('Wednesday 22 May 2024');
    expect(lexicon('en-US', '').text(day)).toBe('Wednesday, May 22, 2024');
    expect(lexicon('en-US').text(day)).toBe('2024-05-22');
  });
});
