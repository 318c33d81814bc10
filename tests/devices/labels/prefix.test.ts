import { expect, it } from 'vitest';
import { decodeLabel } from '../../../src/devices/labels/decode.js';
import { type PrefixKind, prefixKind } from '../../../src/devices/labels/prefix.js';

const letters = [...'ABCDEFGHIJKLMNOPQRSTUVWXYZabcdefghijklmnopqrstuvwxyz'];
const modifiers = [...'0123456789', ...letters];

// Source: ISO/IEC 15424, and for those of GS1 the GS1 General Specifications; the numbers behind others from memory.
it('of all prefixes these are known', () => {
  const all = letters.flatMap(letter => modifiers.map(modifier => letter + modifier));
  const known = (kind: PrefixKind) => all.filter(two => prefixKind(`]${two}`) === kind);
  expect({ gs1: known('gs1'), retail: known('retail'), other: known('other') }).toEqual({
    gs1: ['C1', 'J1', 'Q3', 'd2', 'e0'],
    retail: ['E0', 'E3', 'E4'],
    other:
      'A0 A1 A2 A3 A4 A5 A6 A7 C0 C2 C4 E1 E2 F0 F1 F2 F3 F4 F5 F6 I0 I1 I2 I3 J0 J2 J3 J4 J5 L0 L1 L2 L3 L4 L5 Q0 Q1 Q2 Q4 Q5 Q6 X0 d0 d1 d3 d4 d5 d6 e1 e2 e3 z0 z1 z2 z3 z4 z5 z6 z7 z8 z9 zA zB zC'.split(
        ' ',
      ),
  });
});

it.each([
  ['', 'none'],
  [']C', 'unknown'],
  ['C1', 'unknown'],
  [']A00', 'unknown'],
  ['+]A0', 'unknown'],
])('%j is %s', (text, kind) => {
  expect(prefixKind(text)).toBe(kind);
});

it.each([']E0', ']E3', ']E4'])(
  'a number from a retail symbol (%s) is read without remark on the symbol',
  prefix => {
    const { di, findings } = decodeLabel(`${prefix}4006381333931`, { today: '2026-11-25' });
    expect([di, ...findings.map(f => f.code)]).toEqual(['04006381333931', 'label.bare-number']);
  },
);
