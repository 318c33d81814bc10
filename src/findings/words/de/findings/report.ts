import type { MessageKey } from '../../../message.js';

/** Zeichen in einem Bericht. */
export const reportFindings = {
  'finding.report.illegal-character':
    'Der Text enthält {characters}, was kein Bericht tragen kann; gezeigt wird U+FFFD.',
  'remedy.report.illegal-character':
    'Entfernen Sie das Zeichen; oft kam es von einem Scanner oder vom Kopieren.',
  'finding.report.turning-character':
    'Der Text enthält {characters}, was die Leserichtung des Textes ringsum umkehrt; gezeigt wird U+FFFD.',
  'remedy.report.turning-character':
    'Entfernen Sie das Zeichen; von rechts nach links geschriebene Schriften sind ohne es richtig lesbar.',
  'finding.report.hidden-character':
    'Der Text enthält {characters}, was niemand sehen kann; der Bericht lässt es weg.',
  'remedy.report.hidden-character': 'Entfernen Sie das Zeichen, damit die Suche den Text findet.',
} satisfies Partial<Record<MessageKey, string>>;
