import { describe, expect, it } from 'vitest';
import { escapedInJson, guarded, shown } from '../../../src/cli/terminal/shown.js';

const ESC = '\u001b';

describe('what a record holds and a terminal would act on', () => {
  it.each([
    ['a change of colour', `${ESC}[31mred`, '<U+001B>[31mred'],
    ['a title of the window', `${ESC}]0;owned\u0007`, '<U+001B>]0;owned<U+0007>'],
    ['a line written over', 'no allergy\rallergy to latex', 'no allergy allergy to latex'],
    ['text turned round', 'left \u202ethgir', 'left <U+202E>thgir'],
    ['an isolate', '\u2066left\u2069', '<U+2066>left<U+2069>'],
    ['a control of eight bits', '\u009b2J', '<U+009B>2J'],
    ['delete and backspace', 'a\u0008\u007f', 'a<U+0008><U+007F>'],
    ['half a pair', 'a\ud83d', 'a<U+D83D>'],
    ['a line end and a tab', 'a\nb\tc\u2028', 'a b c<U+2028>'],
  ])('%s', (_what, text, seen) => {
    expect(shown(text)).toBe(seen);
  });

  it('leaves names of every script as they are', () => {
    for (const name of ['José Müller', '\u4e2d\u6587\u540d', 'שרה כהן', 'नेहा', 'e\u0301', 'Zoë 👩‍⚕️'])
      expect(shown(name)).toBe(name);
  });

  it('lets through our own colours, line ends and tabs alone on the way to a terminal', () => {
    const text = `${ESC}[1m${ESC}[31merror${ESC}[39m${ESC}[22m\tx\n`;
    expect(guarded(text)).toBe(text);
    expect(guarded(`${ESC}[2J${ESC}[1;1Hx\r\u0007`)).toBe('<U+001B>[2J<U+001B>[1;1Hx<U+000D><U+0007>');
    expect(guarded('\u202eabc')).toBe('<U+202E>abc');
  });

  it('is escaped in JSON, whose value and lines stay what they are', () => {
    const value = { name: 'a\u009b2J\u202e\u2028', more: ['\u001b', '\u007f\n'] };
    const json = JSON.stringify(value, null, 2);
    const escaped = escapedInJson(json);
    expect(JSON.parse(escaped)).toEqual(value);
    expect(escaped.split('\n')).toHaveLength(json.split('\n').length);
    expect(guarded(escaped)).toBe(escaped);
  });
});
