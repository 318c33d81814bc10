import type { MessageKey } from '../../../message.js';

/** Líneas dictadas o escritas. */
export const lineFindings = {
  'finding.lines.uncertain': 'La línea {n} es dudosa: {why}.',
  'remedy.lines.uncertain': 'Compare lo propuesto con lo que se hizo y corríjalo o acéptelo.',
  'finding.lines.not-understood': 'La línea {n} no se ha entendido: {why}.',
  'remedy.lines.not-understood': 'Dígalo con otras palabras o escriba el evento a mano.',
  'finding.lines.too-long':
    'La línea {n} tiene {found} caracteres y no se ha leído; una línea tiene como máximo {limit}.',
  'remedy.lines.too-long': 'Dé una línea por cada paso.',
  'finding.lines.too-many': 'Hay {found} líneas; solo se han leído las primeras {limit}.',
  'remedy.lines.too-many': 'Dé las líneas de un caso cada vez.',
  'finding.lines.unprintable': 'La línea {n} contiene un carácter de control y no se ha leído.',
  'remedy.lines.unprintable': 'Escriba la línea otra vez.',
} as const satisfies Partial<Record<MessageKey, string>>;
