import type { MessageKey } from '../../../message.js';

/** Berichte als PDF. */
export const reportPdfFindings = {
  'finding.report.character-not-in-font':
    'Der Text enthält {characters}, was der Schrift der PDF fehlt; die PDF zeigt dafür U+FFFD.',
  'remedy.report.character-not-in-font':
    'Lesen Sie diesen Text im Bericht als HTML oder reiner Text, oder schreiben Sie ihn mit Buchstaben, die die Schrift hat.',
} satisfies Partial<Record<MessageKey, string>>;
