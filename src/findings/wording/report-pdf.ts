import { define } from '../define.js';

/** Wording of the findings of reports as PDF. */
export const reportPdfWording = define({
  'report.font-not-installed': {
    severity: 'warning',
    message:
      'The text contains {characters}, for which no font is installed; the PDF shows U+FFFD in their place.',
    remedy:
      'Install the font with npm install in the folder of the site configuration, or where Casetally is started: {packages} (one of them is enough). Until then read this text in the HTML or plain text report.',
    basis: 'ISO 32000-1:2008, section 9.6 (a font shows the glyphs that it holds)',
  },
  'report.character-not-in-font': {
    severity: 'warning',
    message:
      'The text holds {characters}, which the font of the PDF lacks; the PDF shows U+FFFD in its place.',
    remedy: 'Read this text in the HTML or plain text report, or write it in letters that the font has.',
    basis: 'ISO 32000-1:2008, section 9.6 (a font shows the glyphs that it holds)',
  },
});
