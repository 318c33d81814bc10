import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { isLabel, Wedge } from '../../web/case/devices/wedge.js';

/** Keys with the time between them; the symbols that came of it. */
function typed(keys: readonly string[], gap: number, wedge = new Wedge(), from = 1_000): string[] {
  return keys.flatMap((key, n) => {
    const ctrl = key === 'Ctrl+]';
    const { symbol } = wedge.key(ctrl ? ']' : key, ctrl, from + n * gap);
    return symbol === undefined ? [] : [symbol];
  });
}

describe('a scanner that types', () => {
  it('gives what it types, whatever it is', () => {
    fc.assert(
      fc.property(
        fc.string({ unit: 'binary-ascii', minLength: 6 }).filter(text => !/[\r\n\t]/.test(text)),
        fc.nat(50),
        (text, gap) => {
          expect(typed([...text, 'Enter'], gap)).toEqual([text]);
        },
      ),
    );
  });

  it('sends a group separator (GS1 General Specifications, 7.8) as Ctrl and ]', () => {
    expect(typed([...'0109506', 'Ctrl+]', ...'10A', 'Enter'], 5)).toEqual(['0109506\u001d10A']);
  });

  it('is no hand, and no single Enter', () => {
    expect(typed([...'guidewire', 'Enter'], 120)).toEqual([]);
    expect(typed(['Enter'], 5)).toEqual([]);
    // Keys that were struck before are not part of it.
    const wedge = new Wedge();
    typed(['x'], 5, wedge, 0);
    expect(typed([...'0109506', 'Enter'], 5, wedge, 5_000)).toEqual(['0109506']);
  });

  it('holds keys back from the second one on, so that no button is pressed by what it types', () => {
    const wedge = new Wedge();
    expect(wedge.key('a', false, 0).busy).toBe(false);
    expect(wedge.key(' ', false, 5).busy).toBe(true);
  });
});

describe('a label', () => {
  it('is told from whatever else a field is given', () => {
    // GS1 General Specifications; ANSI/HIBC 2.6, primary and secondary data; ISBT 128 (examples of FDA's table of formats, from memory).
    for (const label of [
      '(01)09506000117843(17)291231',
      '0109506000117843',
      ']d20109506000117843',
      '+A99912345/$$3270630',
      '+$$3270630MCL',
      '=/A9999XYZ100T0944',
    ])
      expect(isLabel(label), label).toBe(true);
    for (const text of [
      ...['10 mL', '+254 20 555 0110', 'Right flank above the iliac crest', '0114', '=10 mL', '+ 2 cm'],
      ...['KJ-2024-1107', '2024-11-07T05:50', '01 then 02', '+ve for growth', '09506000117843'],
    ])
      expect(isLabel(text), text).toBe(false);
  });
});
