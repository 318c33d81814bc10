import { define } from '../define.js';

/** Wording of the findings of reports as PDF. */
export const reportPdfWording = define({
  'report.character-not-in-font': {
    severity: 'warning',
    message:
      'The text holds {characters}, which the font of the PDF lacks; the PDF shows U+FFFD in its place.',
    remedy: 'Read this text in the HTML or plain text report, or write it in letters that the font has.',
    basis: 'ISO 32000-1:2008, section 9.6 (a font shows the glyphs that it holds)',
  },
});
