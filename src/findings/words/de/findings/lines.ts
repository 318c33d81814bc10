import type { MessageKey } from '../../../message.js';

/** Gesprochene oder getippte Zeilen. */
export const lineFindings = {
  'finding.lines.uncertain': 'Zeile {n} ist unsicher: {why}.',
  'remedy.lines.uncertain':
    'Vergleichen Sie den Vorschlag mit dem, was getan wurde, und berichtigen oder übernehmen Sie ihn.',
  'finding.lines.not-understood': 'Zeile {n} wurde nicht verstanden: {why}.',
  'remedy.lines.not-understood': 'Sagen Sie es mit anderen Worten, oder schreiben Sie das Ereignis von Hand.',
  'finding.lines.too-long':
    'Zeile {n} hat {found} Zeichen und wurde nicht gelesen; eine Zeile hat höchstens {limit}.',
  'remedy.lines.too-long': 'Geben Sie eine Zeile für jeden Schritt.',
  'finding.lines.too-many': 'Es sind {found} Zeilen; nur die ersten {limit} wurden gelesen.',
  'remedy.lines.too-many': 'Geben Sie die Zeilen eines Falls nach denen des anderen.',
  'finding.lines.unprintable': 'Zeile {n} enthält ein Steuerzeichen und wurde nicht gelesen.',
  'remedy.lines.unprintable': 'Tippen Sie die Zeile noch einmal.',
} satisfies Partial<Record<MessageKey, string>>;
