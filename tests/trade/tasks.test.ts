import { describe, expect, it } from 'vitest';
import { staysForGood } from '../../src/trade/removal.js';
import { isArranged, isVisit } from '../../src/trade/visits.js';

// How people write tasks and conditions. Common practice, no source.

describe('a task', () => {
  it.each(['Clopidogrel 75 mg a day beside aspirin', 'Heparin 5000 IU twice a day', 'No follow-up'])(
    'that is no visit: %s',
    task => expect(isVisit(task)).toBe(false),
  );
  it.each(['Duplex of both stents', 'Remove the drain', 'Wound check', 'Allergy clinic'])(
    'that is one: %s',
    task => expect(isVisit(task)).toBe(true),
  );
  it('is arranged by who is asked for it where another place sees the patient', () => {
    expect(isArranged('Allergy clinic')).toBe(true);
    expect(isArranged('Wound check')).toBe(false);
  });
});

describe('a condition', () => {
  it.each(['stays for good', 'permanent', 'remains in place for life', 'never', 'no removal'])(
    'that never comes: %s',
    condition => expect(staysForGood(condition)).toBe(true),
  );
  it.each(['anticoagulation safe again', 'output under 10 mL a day', 'stays until the scan', undefined])(
    'that may: %s',
    condition => expect(staysForGood(condition)).toBe(false),
  );
});
