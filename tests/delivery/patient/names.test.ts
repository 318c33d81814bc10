import { describe, expect, it } from 'vitest';
import { compareNames } from '../../../src/delivery/patient/names.js';

/* Names are invented; which spellings are one person's is common practice, no source. */
describe('two names', () => {
  it.each([
    ['Wambugu Starling Odera', 'ODERA, Wambugu Starling'],
    ['Wambugu Odera', 'Wambugu Starling Odera'],
    ['Zoë Müller', 'Zoe Mueller'],
    ['Dr. Åse Ågård', 'Aase Aagaard'],
    ["Una O'Brine", 'Una O’Brine'],
    ["Una O'Brine", 'Una O Brine'],
    ['Muiruri-Lamb Zawadi', 'Zawadi Muiruri Lamb'],
    ['Анна Петрова', 'Anna Petrova'],
    ['Ｖｅｌａ Quintanar', 'Vela Quintanar'],
  ])('%s and %s are the same, either way round', (a, b) => {
    expect([compareNames(a, b), compareNames(b, a)]).toEqual(['same', 'same']);
  });

  it.each([
    ['Vela Quintanar', 'Vela Quintana'],
    ['Vela Quintanar', 'Vela Quintnaar'],
    ['V Quintanar', 'Vela Quintanar'],
    ['Quintanar', 'Vela Quintanar'],
    ['محمد علي', 'Mohammed Aly'],
  ])('%s and %s are near', (a, b) => {
    expect([compareNames(a, b), compareNames(b, a)]).toEqual(['near', 'near']);
  });

  it.each([
    ['Vela Quintanar', 'Vela Brookmere'],
    ['Vela Quintanar', 'Vila Quintanas'],
    ['Vela Quintanar Jr', 'Vela Quintanar Sr'],
    ['Ann', 'Zed'],
    ['Smith', 'John Smyth'],
  ])('%s and %s are two people', (a, b) => {
    expect([compareNames(a, b), compareNames(b, a)]).toEqual(['differs', 'differs']);
  });

  it.each(['', '  ', '—', 'Dr.', '…'])('%j is no name to compare', name => {
    expect(compareNames('Vela Quintanar', name)).toBeUndefined();
  });

  it('are compared in reasonable time, however long', () => {
    expect(compareNames('a '.repeat(20_000), 'b '.repeat(20_000))).toBe('differs');
  });
});
