import Handlebars from 'handlebars';
import type { StoredPicture } from '../pictures/stored.js';
import type { Picture } from '../pictures/svg.js';
import type { DocumentSection, Node } from '../view/nodes.js';

/**
 * Helpers of markup templates. Drawings are the only things that are printed as they are: they are made by Casetally
 * and read by `readPicture` before they come here.
 */
export const markupHelpers: Readonly<Record<string, Handlebars.HelperDelegate>> = {
  same: (one: unknown, other: unknown) => one === other,
  node: ({ kind }: Node) => `parts/${kind}`,
  svg: ({ svg }: Picture) => new Handlebars.SafeString(svg),
  jpeg: ({ jpeg }: StoredPicture) => `data:image/jpeg;base64,${Buffer.from(jpeg).toString('base64')}`,
  hasPictures: (sections: readonly DocumentSection[]) =>
    sections.some(({ nodes }) => nodes.some(({ kind }) => kind === 'gallery')),
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
