import { create, type Font } from 'fontkit';
import { remembered, rememberedOf } from '../../record/remembered.js';
import { type Covers, UNSEEN } from './glyphs.js';
import type { PdfFonts, ScriptCuts } from './options.js';

/** The two cuts of a typeface, opened once: reading the tables of a font takes as long as writing a page. */
interface Cuts {
  readonly regular: Font;
  readonly bold: Font;
}

/** A stretch of text that one typeface can write; its name is empty for the shipped one. */
export interface Stretch {
  readonly face: string;
  readonly text: string;
}

/** Words of a cut whose width is known at most: reports say the same things again and again, and shaping takes longest. */
const MOST_WIDTHS = 20_000;

/** The typefaces that a PDF may be written in: the shipped one for all that it holds, others for the rest. */
export interface Faces {
  readonly covers: Covers;
  /** In which typeface each part of a text is written; signs that none holds are left to the shipped one. */
  stretches(text: string): readonly Stretch[];
  /** A cut for one document. */
  font(face: string, bold: boolean): Font;
  /** Width of text in a cut, as a multiple of its size. */
  width(text: string, face: string, bold: boolean): number;
  /** How far the top of a typeface's letters is above that of the shipped one, as a part of their size. */
  rise(face: string): number;
}

const segments = new Intl.Segmenter('en', { granularity: 'grapheme' });

/** Opens the typefaces, those for other scripts when a text first needs them. */
export function openFaces(fonts: PdfFonts, more: readonly ScriptCuts[] = []): Faces {
  const main = { regular: opened(fonts.regular), bold: opened(fonts.bold) };
  const known = new Map<string, Cuts>();
  const cutsOf = (face: string): Cuts => {
    const found = known.get(face) ?? more.find(({ name }) => name === face)?.open();
    if (!found) return main;
    known.set(face, found);
    return found;
  };
  const holds = (face: string, codePoint: number) => {
    const { regular, bold } = cutsOf(face);
    return regular.hasGlyphForCodePoint(codePoint) && bold.hasGlyphForCodePoint(codePoint);
  };
  /** Names of the typefaces that hold a code point, in their order. */
  const holders = remembered((sign): readonly string[] => {
    const codePoint = sign.codePointAt(0) ?? 0;
    const others = more.filter(({ signs, name }) => signs.test(sign) && holds(name, codePoint));
    return [...(holds('', codePoint) ? [''] : []), ...others.map(({ name }) => name)];
  });
  /** The typeface for a word, or for what is read as one sign; undefined where none holds all of it. */
  const faceOf = (part: string, text: string): string | undefined => {
    const needed = Array.from(part).filter(sign => !UNSEEN.test(sign));
    const [first = [''], ...rest] = needed.map(holders);
    const fit = first.filter(face => rest.every(faces => faces.includes(face)));
    const own = fit.filter(face => more.some(({ name, own: tells }) => name === face && tells?.test(text)));
    return fit[0] === '' ? '' : (own[0] ?? fit[0]);
  };
  const stretches = (text: string): Stretch[] => {
    const parts: { face: string; text: string }[] = [];
    const add = (face: string, part: string) => {
      const last = parts.at(-1);
      if (last?.face === face) last.text += part;
      else parts.push({ face, text: part });
    };
    for (const [word] of text.matchAll(/ +|[^ ]+/g)) {
      // Letters join within a word, so that it is in one typeface where one holds all of it.
      const whole = faceOf(word, text);
      if (whole !== undefined) add(whole, word);
      else
        for (const { segment } of segments.segment(word)) {
          const face = faceOf(segment, text);
          if (face !== undefined) add(face, segment);
          else for (const sign of segment) add(faceOf(sign, text) ?? '', sign);
        }
    }
    return parts;
  };
  const cut = (face: string, bold: boolean) => cutsOf(face)[bold ? 'bold' : 'regular'];
  const plain = (text: string) => /^[ -~]*$/.test(text) || more.length === 0;
  return {
    covers: codePoint => holders(String.fromCodePoint(codePoint)).length > 0,
    stretches: text => (plain(text) ? [{ face: '', text }] : stretches(text)),
    font: (face, bold) => afresh(cut(face, bold)),
    // Parted as the library parts a line that it writes: each word goes with the space after it.
    width(text, face, bold) {
      const width = widthsIn(cut(face, bold));
      return (text.match(/[^ ]* |[^ ]+$/g) ?? []).reduce((sum, word) => sum + width(word), 0);
    },
    rise: face => topOf(cutsOf(face).regular) - topOf(main.regular),
  };
}

export const opened = (bytes: Uint8Array) => create(Buffer.from(bytes)) as Font;

const topOf = ({ ascent, unitsPerEm }: Font) => ascent / unitsPerEm;

/**
 * A font that shares the tables that were read, with glyphs of its own: the library keeps with a glyph the characters
 * that it first stood for, so that what is written would hang on what was written before.
 */
const afresh = (font: Font): Font => Object.create(font, { _glyphs: { value: {} } });

/** Widths of words in a cut, as a multiple of their size. */
const widthsIn = rememberedOf((font: Font) =>
  remembered(word => afresh(font).layout(word).advanceWidth / font.unitsPerEm, MOST_WIDTHS),
);
