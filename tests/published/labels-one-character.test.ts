import { describe, expect, it } from 'vitest';
import { decodeLabel } from '../../src/devices/labels/decode.js';
import { messageOf } from '../../src/findings/finding.js';

const today = '2026-11-25';
const characters = '0123456789ABCDEFGHIJKLMNOPQRSTUVWXYZabcxyz-. $/+%()[]{}=&,><_*#|~\u001d';

/** Every text that differs from `text` in one character. */
function* oneChanged(text: string): Generator<{ changed: string; at: number }> {
  for (let i = 0; i < text.length; i += 1) {
    for (const character of characters) {
      if (character !== text[i])
        yield { changed: text.slice(0, i) + character + text.slice(i + 1), at: i + 1 };
    }
  }
}

const errorsOf = (text: string) => decodeLabel(text, { today }).findings.filter(f => f.severity === 'error');
const namesAPlace = /character \d+|check|it starts with/;

/** Positions (from 1) of the values of these elements in the label as published. */
function positions(text: string, ids: readonly string[]): Set<number> {
  const out = new Set<number>();
  for (const { id, at, raw } of decodeLabel(text, { today }).elements) {
    if (ids.includes(id)) for (let i = 0; i < raw.length; i += 1) out.add(at + i);
  }
  return out;
}

describe('a published label with one character changed', () => {
  it.each([
    '+A123BJC5D6E71G',
    '+A123BJC5D6E71/$$52001510X3C',
    '+A123BJC5D6E71G+$$52001510X3GD',
    '+$$52001510X3GD',
    '+H123ABC01234567890D',
    '+A123ABCDEFGHI1234567891E',
    '+A999ABC123DE0/$+1234567Y',
    '+A999ABC1230V',
  ])('%s: every change is an error that names the place or the check character', text => {
    for (const { changed } of oneChanged(text)) {
      const errors = errorsOf(changed);
      expect(errors.length, changed).toBeGreaterThan(0);
      for (const error of errors.filter(e => e.code !== 'label.no-device-identifier')) {
        expect(messageOf(error), changed).toMatch(namesAPlace);
      }
    }
  });

  it('the HIBC example whose own check character is wrong: every change is an error, unless it makes the check right', () => {
    const text = '+H123PARTNO1234567890120/$$420020216LOT123456789012345/SXYZ456789012345678/16D20130202C';
    let unproven = 0;
    for (const { changed } of oneChanged(text)) {
      const decoded = decodeLabel(changed, { today });
      if (decoded.findings.some(f => f.severity === 'error')) continue;
      // The published C is 5 less than the right H: a change by 5 the other way gives a label in full order.
      expect(decoded.check, changed).toBe('right');
      unproven += 1;
    }
    expect(unproven).toBe(47);
  });

  it('a HIBC label longer than a printed line: one change in about eighty looks like a lost space, a warning', () => {
    const text = '+A123ABCDEFGHI1234567891/$$420020216LOT123456789012345/SXYZ456789012345678/16D20130202$';
    let warned = 0;
    let all = 0;
    for (const { changed } of oneChanged(text)) {
      all += 1;
      if (errorsOf(changed).length > 0) continue;
      expect(
        decodeLabel(changed, { today }).findings.map(f => f.code),
        changed,
      ).toContain('label.check-character-space');
      warned += 1;
    }
    expect({ warned, all }).toEqual({ warned: 66, all: 5655 });
  });

  // The digits of application identifiers and of dates can turn into others that are as valid; lots and
  // serial numbers have no check at all. Everywhere else a change is an error.
  it.each([
    ['(01)51022222233336(11)141231(17)150707(10)A213B1(21)1234', ['10', '21', '11', '17']],
    ['(01)09506000117843(11)141231(17)201231(10)1234AB(21)5678CD', ['10', '21', '11', '17']],
    ['(01)00643169001763(17)160712(21)21A11F4855', ['21', '17']],
    ['{01}00844588003288{17}141120{10}7654321D{21}10987654d321', ['10', '21', '17']],
  ])('%s: device identifier and brackets are proof against it', (text, ids) => {
    const unproven = positions(text, ids);
    for (const mark of text.matchAll(/[({](\d\d)[)}]/g)) {
      if (mark[1] !== '01') for (const i of [1, 2]) unproven.add(mark.index + i + 1);
    }
    let proven = 0;
    for (const { changed, at } of oneChanged(text)) {
      const errors = errorsOf(changed);
      if (errors.length > 0) proven += 1;
      else expect(unproven.has(at), `${changed} at ${at}`).toBe(true);
      for (const error of errors.filter(e => e.code !== 'label.no-device-identifier')) {
        expect(messageOf(error), changed).toMatch(namesAPlace);
      }
    }
    expect(proven).toBeGreaterThan(text.length * 40);
  });

  it.each([
    '=/A9999XYZ100T0944=,000025=A99971312345600=>014032=}013032&,1000000000000XYZ123',
    '=)1TE123456A&)RZ12345678',
  ])('%s has no check character: a change is an error unless that field then is another valid one', text => {
    const original = decodeLabel(text, { today });
    const values = positions(
      text,
      original.elements.map(e => e.id),
    );
    for (const { changed, at } of oneChanged(text)) {
      const decoded = decodeLabel(changed, { today });
      if (decoded.findings.some(f => f.severity === 'error')) continue;
      expect(values.has(at), `${changed} at ${at}`).toBe(true);
      expect({ ...decoded, text: '', carrierHRF: '', elements: [] }).not.toEqual({
        ...original,
        text: '',
        carrierHRF: '',
        elements: [],
      });
    }
  });
});
