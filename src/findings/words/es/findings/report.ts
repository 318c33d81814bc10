import type { MessageKey } from '../../../message.js';

/** El informe. */
export const reportFindings = {
  'finding.report.illegal-character':
    'El texto contiene {characters}, que ningún informe puede llevar; se muestra como U+FFFD.',
  'remedy.report.illegal-character': 'Quite el carácter; a menudo viene de un lector de códigos o de copiar.',
  'finding.report.turning-character':
    'El texto contiene {characters}, que invierte el orden de lectura del texto de alrededor; se muestra como U+FFFD.',
  'remedy.report.turning-character':
    'Quite el carácter; las escrituras de derecha a izquierda se leen bien sin él.',
  'finding.report.hidden-character':
    'El texto contiene {characters}, que nadie puede ver; el informe lo omite.',
  'remedy.report.hidden-character': 'Quite el carácter, para que el texto se encuentre al buscar.',
} as const satisfies Partial<Record<MessageKey, string>>;
