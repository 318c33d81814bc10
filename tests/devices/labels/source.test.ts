import { describe, expect, it } from 'vitest';
import { decodeLabel } from '../../../src/devices/labels/decode.js';
import { shown } from '../../../src/devices/labels/source.js';
import { say } from '../../../src/findings/say.js';

const today = '2026-11-25';

describe('a character in a message', () => {
  it.each([
    ['nothing', undefined, 'the end'],
    ['a space', ' ', 'a space'],
    ['a separator', '\u001d', 'a group separator'],
    ['nul', '\0', 'control character 0'],
    ['a line feed', '\n', 'control character 10'],
    ['the last control character', '\u001f', 'control character 31'],
    ['the first that prints', '!', "'!'"],
    ['the last that prints', '~', "'~'"],
    ['delete', '\u007f', 'control character 127'],
    ['a letter', 'A', "'A'"],
    ['a letter with a mark', 'é', "'é'"],
  ])('%s', (_what, character, words) => expect(say(shown(character))).toBe(words));
});

describe('what a site says its scanners print for the separator', () => {
  const read = (text: string, ...separatorAliases: string[]) =>
    decodeLabel(text, { today, entry: 'scan', separatorAliases });
  const bytes = ({ carrierAIDC }: { carrierAIDC?: string }) =>
    carrierAIDC === undefined ? undefined : Buffer.from(carrierAIDC, 'base64').toString();

  it('is taken as long as it can be, in whatever order the site lists it', () => {
    const parts = { di: '09506000117843', lot: 'AB1', serial: 'S7', findings: [] };
    const text = '010950600011784310AB1^GS21S7';
    expect(read(text, '^', '^G', '^GS')).toMatchObject(parts);
    expect(read(text, '^GS', '^G', '^')).toMatchObject(parts);
    expect(read(text, '^G', '^GS', '^')).toMatchObject(parts);
  });

  it('may be the separator itself, which replaces nothing', () => {
    const text = '010950600011784310AB1\u001d21S7';
    const label = read(text, '\u001d', '', '^');
    expect([label.lot, label.serial, bytes(label)]).toEqual(['AB1', 'S7', text]);
  });

  it('keeps places as they were typed, behind each of several and at one', () => {
    const first = (text: string) => {
      const [found] = decodeLabel(text, { today }).findings;
      return [found?.code, found?.params['at']];
    };
    expect(first('010950600011784310AB1<GS>21S7<GS>172813x1')).toEqual(['label.character', '40']);
    expect(first('010950600011784310AB1<FNC1>21S7|172813x1')).toEqual(['label.character', '39']);
    expect(first('010950600011784310AB1<GS>21S7<GS>ZZ')).toEqual(['label.unknown-identifier', '34']);
    expect(first('010950600011784310<GS>21S7')).toEqual(['label.length', '19']);
  });

  it('leaves the bytes unknown where one was replaced, and known where none was', () => {
    expect(bytes(read('010950600011784310AB1^21S7', '^'))).toBeUndefined();
    expect(bytes(read('010950600011784310AB1', '^'))).toBe('010950600011784310AB1');
  });
});
