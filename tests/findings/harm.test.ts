import { describe, expect, it } from 'vitest';
import { finding } from '../../src/findings/finding.js';
import { byHarm, withFollowing } from '../../src/findings/harm.js';

const time = finding('record.event-out-of-place', 'events[3].at', {
  event: 'insert',
  time: '20:12',
  from: '10:11',
  to: '10:14',
  count: '1',
});
const lost = finding('tally.unaccounted', 'events[5]', {
  device: 'wire',
  time: '10:20',
  key: 'wire',
  removal: '',
});
const follows = { code: time.code, path: time.path };
const slip = finding('record.unknown-key', 'urgancy', { key: 'urgancy', suggestion: '' });
const note = finding('record.checked-in-part', '', {});

describe('findings by harm', () => {
  it('begin with what may be in the patient, then slips of the keyboard, then notes', () => {
    expect(byHarm([note, slip, lost])).toEqual([lost, slip, note]);
  });

  it('have a cause just before the worst of what follows from it', () => {
    const folded = { ...lost, follows };
    expect(byHarm([slip, folded, time])).toEqual([time, folded, slip]);
  });

  it('are held against each other once, however many there are', () => {
    const many = Array.from({ length: 20_000 }, (_, i) =>
      finding('record.unknown-key', `x${i}`, { key: 'x', suggestion: 'y' }),
    );
    expect(withFollowing(many)).toHaveLength(20_000);
  });

  it('fold what follows under its cause, and only where that is there', () => {
    const folded = { ...lost, follows };
    expect(withFollowing([time, folded, slip])).toEqual([
      { finding: time, following: [folded] },
      { finding: slip, following: [] },
    ]);
    expect(withFollowing([folded])).toEqual([{ finding: folded, following: [] }]);
  });
});
