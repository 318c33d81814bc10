import Handlebars from 'handlebars';
import { isWordKey } from '../../findings/say.js';
import type { RenderData } from './templates.js';

type Options = Handlebars.HelperOptions & { data: RenderData };

/** `{{t "key" name=value}}`: a word of the catalogue. A key that is not there is an error. */
export function wordHelper(key: string, options: Options): string {
  if (!isWordKey(key)) throw new Error(`no word '${key}'`);
  return options.data.lexicon.say(key, { ...options.hash });
}

/** `{{group a b c}}`: facts as one block without a caption. */
export function groupHelper(...args: readonly unknown[]): object {
  return { kind: 'facts', caption: '', facts: args.slice(0, -1) };
}

/**
 * Helpers of markup templates. Pictures are the only things that are printed as they are: they are made by
 * Casetally and checked before they come here.
 */
export const markupHelpers: Readonly<Record<string, Handlebars.HelperDelegate>> = {
  t: wordHelper,
  group: groupHelper,
  choose: (yes: boolean, one: unknown, other: unknown) => (yes ? one : other),
  same: (one: unknown, other: unknown) => one === other,
  block: (block: { readonly kind: string }) => `shared/markup/${block.kind}`,
  /** True after the section that the picture of the timeline belongs to, when there is one. */
  showsTimeline: (section: string, options: Options) =>
    section === 'technique' && options.data.timeline !== '',
  /** True after the section that the dose panel belongs to, when there is one. */
  showsDose: (section: string, options: Options) => section === 'dose' && options.data.dose !== '',
  dosePanel: (options: Options) => new Handlebars.SafeString(options.data.dose),
  timeline: (options: Options) => new Handlebars.SafeString(options.data.timeline),
  /** True after the section that stored pictures belong to, when there are any. */
  showsPictures: (section: string, options: Options) =>
    section === 'images' && options.data.pictures.length > 0,
  hasPictures: (options: Options) => options.data.pictures.length > 0,
  pictures: (options: Options) => options.data.pictures,
  cssText: (text: string) => cssText(text),
};

/**
 * Text for a CSS string, for the heads of printed pages: everything but letters and digits of ASCII is written
 * as a CSS escape, so nothing can end the string, the rule or the style element.
 */
export function cssText(text: string): string {
  return Array.from(text, character =>
    /[A-Za-z0-9]/.test(character)
      ? character
      : `\\${(character.codePointAt(0) ?? 32).toString(16).padStart(6, '0')}`,
  ).join('');
}
