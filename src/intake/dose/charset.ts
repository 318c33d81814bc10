import { UNPRINTABLE } from '../../record/schema/fields.js';

/*
 * dcmjs decodes one character set an object and refuses the rest. What a report names is therefore brought to one that
 * can read all of it, where there is one; where there is none, names with other letters are not read, and said so.
 */

/** Defined terms (PS3.3, C.12.1.1.2) that hold ASCII and their own letters, as the decoders of the platform know them. */
const KNOWN = new Set([
  'ISO_IR 6',
  'ISO_IR 13',
  'ISO_IR 100',
  'ISO_IR 101',
  'ISO_IR 109',
  'ISO_IR 110',
  'ISO_IR 126',
  'ISO_IR 127',
  'ISO_IR 138',
  'ISO_IR 144',
  'ISO_IR 148',
  'ISO_IR 166',
  'ISO_IR 192',
  'ISO 2022 IR 6',
  'ISO 2022 IR 100',
  'ISO 2022 IR 101',
  'ISO 2022 IR 109',
  'ISO 2022 IR 110',
  'ISO 2022 IR 126',
  'ISO 2022 IR 127',
  'ISO 2022 IR 138',
  'ISO 2022 IR 144',
  'ISO 2022 IR 148',
  'ISO 2022 IR 166',
  'ISO 2022 IR 87',
  'ISO 2022 IR 149',
  'GB18030',
  'GBK',
]);
/** Several bytes a character, and ASCII beside it: one of these reads what comes with it. */
const WIDE = ['ISO 2022 IR 87', 'ISO 2022 IR 149'];

/**
 * Overwrites the value of a Specific Character Set with the one that is read by, or with blanks.
 * @returns whether letters outside ASCII can be read.
 */
export function settleCharset(value: Uint8Array): boolean {
  const terms = String.fromCharCode(...value.subarray(0, 256))
    .split('\\')
    .map(term => term.replace(/^ +|[\0 ]+$/g, ''))
    .filter(term => term !== '');
  const wide = WIDE.find(term => terms.includes(term));
  const one = wide ?? (terms.length === 1 ? terms[0] : undefined);
  const known = one !== undefined && KNOWN.has(one);
  const foreign = terms.filter(term => term !== one && term !== 'ISO 2022 IR 6');
  value.fill(0x20);
  if (known) value.set(new TextEncoder().encode(one));
  return known && foreign.length === 0;
}

/** Korean text announces its set in front of every line; the decoder of the platform leaves that standing. */
const ANNOUNCED = '\u001b$)C';

/**
 * A name or text that is sure to be what was written, else undefined.
 * @param foreign whether letters outside ASCII can be read
 */
export function sureText(text: string, foreign: boolean): string | undefined {
  const plain = text.replaceAll(ANNOUNCED, '');
  // An escape that is left over is a set that was not decoded; no record takes a control character.
  if (plain.includes('\ufffd') || UNPRINTABLE.test(plain)) return undefined;
  // biome-ignore lint/suspicious/noControlCharactersInRegex: everything outside ASCII
  return foreign || /^[\u0000-\u007f]*$/.test(plain) ? plain : undefined;
}
