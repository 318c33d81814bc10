import type { MessageKey } from '../../../message.js';

/** El informe en PDF. */
export const reportPdfFindings = {
  'finding.report.character-not-in-font':
    'El texto contiene {characters}, que falta en la fuente del PDF; el PDF muestra U+FFFD en su lugar.',
  'remedy.report.character-not-in-font':
    'Lea este texto en el informe HTML o de texto sin formato, o escríbalo con letras que la fuente tenga.',
} as const satisfies Partial<Record<MessageKey, string>>;
