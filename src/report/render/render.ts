import { lexicon } from '../../findings/say.js';
import type { Audience, Format } from '../options.js';
import { type StoredPictures, shownPictures } from '../pictures/stored.js';
import type { ReportView } from '../view/model.js';
import { narrativeDiv } from './narrative.js';
import { checkPicture } from './picture.js';
import type { EmbeddedPicture, Templates } from './templates.js';
import { tidy } from './text.js';

export interface RenderOptions {
  readonly audience: Audience;
  readonly format: Format;
  /** SVG of the device timeline, for HTML pages. It is printed as it is: only pass what Casetally made. */
  readonly timelineSvg?: string;
  /** SVG of the dose panel, for HTML pages; empty for none. */
  readonly doseSvg?: string;
  /** Stored pictures, for the HTML page of the full report; other readers and formats get none. */
  readonly pictures?: StoredPictures;
}

/** Renders one report. Pure: same view, templates and options, same text. */
export function renderReport(view: ReportView, templates: Templates, options: RenderOptions): string {
  const { audience, format, timelineSvg, doseSvg = '' } = options;
  const timeline = timelineSvg === undefined ? '' : checkPicture(timelineSvg);
  const dose = doseSvg === '' ? '' : checkPicture(doseSvg);
  const text = templates.render(`${audience}/${format}`, view, {
    lexicon: lexicon(view.language),
    timeline,
    dose,
    pictures: audience === 'record' && format === 'html' ? embedded(view, options.pictures) : [],
  });
  if (format === 'text') return tidy(text);
  return format === 'xhtml' ? narrativeDiv(`${audience}/${format}`, text) : `${text.trim()}\n`;
}

/** The sections that a site adds to one report, in plain text; empty where it adds none. */
export function siteSections(view: ReportView, templates: Templates, audience: Audience): string {
  const data = { lexicon: lexicon(view.language), timeline: '', dose: '', pictures: [] };
  return templates.render(`${audience}/more/text`, view, data).trim();
}

/** Pictures as parts of the page itself: it takes nothing from outside. */
const embedded = (view: ReportView, pictures: StoredPictures | undefined): EmbeddedPicture[] =>
  shownPictures(view, pictures).map(({ caption, alt, picture }) => ({
    caption,
    alt,
    width: picture.width,
    height: picture.height,
    src: `data:image/jpeg;base64,${Buffer.from(picture.jpeg).toString('base64')}`,
  }));
