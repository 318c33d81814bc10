import { describe, expect, it } from 'vitest';
import { mustBeSaid, partRole } from '../../../src/devices/tally/parts.js';

// Common practice, no source.
describe('the role of a part by its kind as people write it', () => {
  it.each([
    ['Retention Thread', 'thread'],
    ['retention silk thread', 'thread'],
    ['retaining_cord', 'thread'],
    ['locking string', 'thread'],
    ['lock line', 'thread'],
    ['locking-suture', 'thread'],
    ['thread', 'thread'],
    ['STRING', 'thread'],
    ['thread guard', 'attached'],
    ['marker string', 'attached'],
    ['lock', 'attached'],
    ['suture', 'attached'],
    ['locking clip', 'attached'],
    ['retention threads', 'attached'],
    ['half', 'half'],
    ['peel_away_halves', 'half'],
    ['halfway mark', 'attached'],
    ['fragments', 'fragment'],
    ['piece', 'fragment'],
    ['distal pieces', 'fragment'],
    ['broken hook', 'fragment'],
    ['stump', 'fragment'],
    ['catheter remnant', 'fragment'],
    ['wire_tip', 'fragment'],
    ['tips', 'attached'],
    ['mouthpiece', 'attached'],
    ['tip of the dilator', 'fragment'],
    ['dilators', 'inner'],
    ['inner dilator', 'inner'],
    ['delivery_system', 'inner'],
    ['pusher', 'inner'],
    ['stylet', 'inner'],
    ['stylets', 'inner'],
    ['obturator', 'inner'],
    ['metal stiffener', 'inner'],
    ['stiffening rod', 'inner'],
    ['cannula', 'inner'],
    ['introducer', 'inner'],
    ['trocar', 'inner'],
    ['inner tube', 'inner'],
    ['spinner', 'attached'],
    ['hook', 'attached'],
  ])('%s: %s', (kind, role) => expect(partRole(kind)).toBe(role));
});

it('asks for the fate of threads and of what comes out on its own, and of nothing that goes with its device', () => {
  const roles = ['thread', 'inner', 'half', 'fragment', 'attached'] as const;
  expect(roles.filter(mustBeSaid)).toEqual(['thread', 'inner']);
});
