import type { MessageKey } from '../../../message.js';

/** El informe en PDF. */
export const reportPdfFindings = {
  'finding.report.font-not-installed':
    'El texto contiene {characters}, para lo que no hay ninguna fuente instalada; el PDF muestra U+FFFD en su lugar.',
  'remedy.report.font-not-installed':
    'Instale la fuente con npm install en la carpeta de la configuración del centro o donde se inicia Casetally: {packages} (basta una de ellas). Hasta entonces, lea este texto en el informe HTML o de texto sin formato.',
  'finding.report.character-not-in-font':
    'El texto contiene {characters}, que falta en la fuente del PDF; el PDF muestra U+FFFD en su lugar.',
  'remedy.report.character-not-in-font':
    'Lea este texto en el informe HTML o de texto sin formato, o escríbalo con letras que la fuente tenga.',
} as const satisfies Partial<Record<MessageKey, string>>;
