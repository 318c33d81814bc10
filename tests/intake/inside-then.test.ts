import { describe, expect, it } from 'vitest';
import type { Contribution, SourceKind, Typed } from '../../src/intake/contribution.js';
import { mergeSources } from '../../src/intake/merge.js';

/* Devices that were not inside yet when the case began. */

const system = 'https://ids.tawhai-inlet.example/cases';
const record = (date: string) => `casetally: 1\ncase: { id: TA-7, ${date} }\n`;

function source(carried: Typed, from: SourceKind = 'earlier case', key = 'drain'): Contribution {
  const values = [
    { path: ['devices', key, 'kind'], value: 'nephrostomy catheter', as: 'set' as const },
    { path: ['devices', key, 'carried'], value: carried, as: 'set' as const },
    { path: ['patient', 'sex'], value: 'female', as: 'set' as const },
  ];
  return { from, at: '2026-06-01T08:12:00Z', by: 'TA-6', values, findings: [] };
}
const merged = (one: Contribution | readonly Contribution[], date = 'date: 2026-03-14') => {
  const all = 'from' in one ? [one] : one;
  const { set, findings } = mergeSources(record(date), all, {
    caseSystem: system,
    timeZone: 'Pacific/Auckland',
  });
  return { taken: set.map(({ path }) => path.join('.')), told: findings.map(f => `${f.severity} ${f.code}`) };
};
const whole = ['devices.drain.kind', 'patient.sex'];

describe('devices that a source has inside', () => {
  it.each(['2026-03-15', '2026-04', '2027', '2026-03-16T09:00:00+13:00'])(
    'placed after the case (%s) are told and not taken; the rest of the source is',
    date => {
      expect(merged(source({ date }))).toEqual({
        taken: ['patient.sex'],
        told: ['error intake.placed-later'],
      });
    },
  );

  it.each([
    '2026-03-13',
    '2026-03-14',
    '2026-03',
    '2026',
    '2026-03-14T23:50:00+13:00',
    'no day at all',
    'unknown',
  ])('placed before it, on its day or on a day that nobody knows (%s) are taken', date => {
    const { taken, told } = merged(source({ date }));
    expect([taken.filter(path => whole.includes(path)), told]).toEqual([whole, []]);
  });

  // Half past eight and half past seven in the evening of that day, there.
  it.each(['2026-03-14T20:30:00-05:00', '2026-03-15T00:30:00Z'])(
    'placed on the day of a case far in the west (%s) are taken',
    date => {
      expect(merged(source({ date }), 'date: 2026-03-14, timeZone: America/Chicago').told).toEqual([]);
    },
  );

  it.each(['14.03.2026', 'March'])('are taken while the day of the case (%s) cannot be read', day => {
    expect(merged(source({ date: '2027-01-01' }), `date: ${day}`).told).toEqual([]);
  });

  it('are taken while the case has no day', () => {
    expect(merged(source({ date: '2027-01-01' }), 'kind: nephrostomy').told).toEqual([]);
  });

  it('placed in this case itself are not taken, and that is said once', () => {
    const own = { case: { system, value: 'TA-7' }, date: '2027-01-01' };
    expect(merged(source(own))).toEqual({ taken: ['patient.sex'], told: ['error intake.placed-here'] });
    // A number of another system may be the same by chance.
    const other = { case: { system: 'https://elsewhere.example/cases', value: 'TA-7' }, date: '2026-03-01' };
    expect(merged(source(other)).told).toEqual([]);
  });

  it('of a register are told as what they are: it has all that came later', () => {
    const told = merged(source({ date: '2026-03-15' }, 'register')).told;
    expect(told).toEqual(['information intake.placed-later']);
  });

  it('of one source are left out, and of another under the same key are taken', () => {
    const two = [
      source({ date: '2026-03-15' }),
      { ...source({ date: '2026-03-01' }, 'register'), by: 'PT-1' },
    ];
    const { taken, told } = merged(two);
    expect(taken).toContain('devices.drain.carried.date');
    expect(told).toEqual(['error intake.placed-later']);
  });
});
