/** A package of a typeface for scripts that the shipped one lacks, in two cuts. */
export interface ScriptFont {
  /** Name of the package on npm. */
  readonly name: string;
  /** Beginning of the names of its files. */
  readonly file: string;
  /** Signs that it is for. */
  readonly signs: RegExp;
  /** Signs that tell that Chinese characters beside them are meant in its form. */
  readonly own?: RegExp;
}

const noto = (script: string, signs: RegExp, own?: RegExp): ScriptFont => ({
  name: `@expo-google-fonts/noto-sans-${script.toLowerCase()}`,
  file: `NotoSans${script}`,
  signs,
  ...(own && { own }),
});

/** Chinese characters, and the wide space and punctuation that are written with them. */
const HAN = /[\p{Script_Extensions=Han}\u3000-\u303f\uff00-\uffef]/u;
const signs = (...some: readonly RegExp[]) => new RegExp(some.map(({ source }) => source).join('|'), 'u');

/**
 * Packages of static TrueType files that a site may install beside Casetally: scripts that people's names are written in
 * and that the shipped typeface lacks. The same Chinese character looks different in Japan, Korea, Taiwan and China: where
 * the text itself does not tell, the first that is installed counts.
 */
export const scriptFonts: readonly ScriptFont[] = [
  noto('Devanagari', /\p{Script_Extensions=Devanagari}/u),
  noto('Bengali', /\p{Script_Extensions=Bengali}/u),
  noto('Gurmukhi', /\p{Script_Extensions=Gurmukhi}/u),
  noto('Gujarati', /\p{Script_Extensions=Gujarati}/u),
  noto('Tamil', /\p{Script_Extensions=Tamil}/u),
  noto('Telugu', /\p{Script_Extensions=Telugu}/u),
  noto('Kannada', /\p{Script_Extensions=Kannada}/u),
  noto('Malayalam', /\p{Script_Extensions=Malayalam}/u),
  noto('Sinhala', /\p{Script_Extensions=Sinhala}/u),
  noto('Thai', /\p{Script=Thai}/u),
  noto('Khmer', /\p{Script=Khmer}/u),
  noto('Myanmar', /\p{Script_Extensions=Myanmar}/u),
  noto('Ethiopic', /\p{Script=Ethiopic}/u),
  // The shipped typeface has the letters of Arabic and Persian, and not those of Urdu, Pashto and others.
  noto('Arabic', /\p{Script_Extensions=Arabic}/u),
  noto('SC', HAN),
  noto('TC', signs(HAN, /\p{Script_Extensions=Bopomofo}/u), /\p{Script=Bopomofo}/u),
  noto('HK', HAN),
  noto(
    'JP',
    signs(HAN, /[\p{Script_Extensions=Hiragana}\p{Script_Extensions=Katakana}]/u),
    /[\p{Script=Hiragana}\p{Script=Katakana}]/u,
  ),
  noto('KR', signs(HAN, /\p{Script_Extensions=Hangul}/u), /\p{Script=Hangul}/u),
];

/** What a text would need to be drawn in its own form: the packages that are for one of its signs. */
export function fontsFor(sign: string, text: string): readonly ScriptFont[] {
  const fit = scriptFonts.filter(({ signs }) => signs.test(sign));
  const own = fit.filter(font => font.own?.test(text));
  return own.length > 0 ? own : fit;
}
