import type { MessageKey } from '../../../message.js';

/** Le compte rendu en PDF. */
export const reportPdfFindings = {
  'finding.report.character-not-in-font':
    'Le texte contient {characters}, qui manque dans la police du PDF ; le PDF affiche U+FFFD à la place.',
  'remedy.report.character-not-in-font':
    'Lisez ce texte dans le compte rendu HTML ou en texte brut, ou écrivez-le avec des lettres que la police contient.',
} as const satisfies Partial<Record<MessageKey, string>>;
