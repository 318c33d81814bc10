import { expect, it } from 'vitest';
import { decodeLabel } from '../../../src/devices/labels/decode.js';
import { messageOf } from '../../../src/findings/finding.js';

const today = '2026-11-25';
const first = (text: string) => {
  const [one] = decodeLabel(text, { today }).findings;
  return one && messageOf(one, 'de');
};

it('an element is named in the language of the reader, one that no device carries as the table has it', () => {
  expect(first('(01)09506000117843(10)A B')).toBe(
    'Charge: an Zeichen 24 steht ein Leerzeichen; erwartet: ein Buchstabe, eine Ziffer oder eines von !"%&\'()*+,-./:;<=>?_.',
  );
  expect(first('(00)095060001178431236(4326)260200')).toBe(
    'release date an Zeichen 29: 260200; diesen Tag gibt es nicht.',
  );
});
