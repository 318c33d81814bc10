import type { Font, Glyph, Subset } from 'fontkit';
import type * as HarfBuzz from 'harfbuzzjs';
import { opened } from './faces.js';

/**
 * A font whose text is shaped by HarfBuzz. The shaping of fontkit, which pdfkit goes by, puts signs of Thai and Myanmar
 * in a wrong order and ends on names in Malayalam, Telugu, Gurmukhi and Khmer; tables and subset stay with it.
 */
export function shapedFont(bytes: Uint8Array, hb: typeof HarfBuzz): Font {
  const font = opened(bytes);
  const shaper = new hb.Font(new hb.Face(new hb.Blob(bytes.slice().buffer)));
  return Object.create(font, {
    layout: { value: (text: string) => glyphRun(text, font, shaper, hb) },
    createSubset: { value: () => bySign(font.createSubset()) },
  });
}

/** What pdfkit reads of a glyph. */
interface ShapedGlyph extends Pick<Glyph, 'advanceWidth' | 'codePoints'> {
  /** The number of the glyph with what it stands for here: one shape stands for other letters in another sign. */
  readonly id: string;
}

function glyphRun(text: string, font: Font, shaper: HarfBuzz.Font, hb: typeof HarfBuzz) {
  const buffer = new hb.Buffer();
  buffer.addText(text);
  buffer.guessSegmentProperties();
  hb.shape(shaper, buffer);
  const infos = buffer.getGlyphInfos();
  const written = writtenBy(
    infos.map(({ cluster }) => cluster),
    text,
  );
  const positions = buffer
    .getGlyphPositions()
    .map(({ xAdvance, yAdvance, xOffset, yOffset }) => ({ xAdvance, yAdvance, xOffset, yOffset }));
  const glyphs = infos.map(({ codepoint: glyph }, index): ShapedGlyph => {
    const letters = written[index] ?? [];
    // A dot above a letter stands for nothing; what takes room must stand for something, else readers see a gap there.
    const takesRoom = positions[index]?.xAdvance !== 0;
    const codePoints = letters.length === 0 && takesRoom ? [JOINER] : letters;
    return {
      id: `${glyph} ${codePoints.join(' ')}`,
      codePoints,
      advanceWidth: font.getGlyph(glyph).advanceWidth,
    };
  });
  return {
    glyphs,
    positions,
    // Asked for after pdfkit has scaled the positions.
    get advanceWidth() {
      return positions.reduce((sum, { xAdvance }) => sum + xAdvance, 0);
    },
  };
}

/** The combining grapheme joiner, which parts no word: for glyphs of a sign that has more of them than letters. */
const JOINER = 0x034f;

/**
 * What each glyph stands for, so that text copied from the file is as it was written: the glyphs of a sign share its
 * letters out in the order of writing, whatever the order in which they are drawn.
 */
function writtenBy(clusters: readonly number[], text: string): number[][] {
  const starts = [...new Set([...clusters, text.length])].sort((a, b) => a - b);
  // From right to left the last glyph is the first that is written.
  const [head = 0] = clusters;
  if (head > (clusters.at(-1) ?? 0)) return writtenBy(clusters.toReversed(), text).toReversed();
  return clusters.map((start, index) => {
    const end = starts[starts.indexOf(start) + 1] ?? text.length;
    const letters = Array.from(text.slice(start, end), sign => sign.codePointAt(0) ?? 0);
    const first = clusters.indexOf(start);
    const count = clusters.filter(cluster => cluster === start).length;
    const kept = Math.max(1, letters.length - count + 1);
    if (index === first) return letters.slice(0, kept);
    return letters.slice(kept + index - first - 1, kept + index - first);
  });
}

/** The glyphs of a file under the names of `glyphRun`: a shape that stands for two things is there twice. */
function bySign(subset: Subset): Subset {
  const own = subset as unknown as { glyphs: number[]; includeGlyph(glyph: number | string): number };
  const plain = own.includeGlyph.bind(subset);
  const places = new Map<string, number>();
  own.includeGlyph = glyph => {
    if (typeof glyph === 'number') return plain(glyph);
    const place = places.get(glyph) ?? own.glyphs.push(Number(glyph.split(' ', 1)[0])) - 1;
    places.set(glyph, place);
    return place;
  };
  return subset;
}
