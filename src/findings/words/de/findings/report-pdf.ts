import type { MessageKey } from '../../../message.js';

/** Berichte als PDF. */
export const reportPdfFindings = {
  'finding.report.font-not-installed':
    'Der Text enthält {characters}; eine Schrift dafür ist nicht installiert, und die PDF zeigt dafür U+FFFD.',
  'remedy.report.font-not-installed':
    'Installieren Sie die Schrift mit npm install im Ordner der Einstellungen der Einrichtung oder dort, wo Casetally gestartet wird: {packages} (eine davon genügt). Bis dahin lesen Sie diesen Text im Bericht als HTML oder reiner Text.',
  'finding.report.character-not-in-font':
    'Der Text enthält {characters}, was der Schrift der PDF fehlt; die PDF zeigt dafür U+FFFD.',
  'remedy.report.character-not-in-font':
    'Lesen Sie diesen Text im Bericht als HTML oder reiner Text, oder schreiben Sie ihn mit Buchstaben, die die Schrift hat.',
} satisfies Partial<Record<MessageKey, string>>;
