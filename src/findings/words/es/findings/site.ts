import type { MessageKey } from '../../../message.js';

/** La configuración del centro. */
export const siteFindings = {
  'finding.site.setting': 'Configuración del centro: {message}',
  'remedy.site.setting': '{fix}',
  'finding.site.not-configured':
    'No se indicó ninguna configuración del centro: los identificadores se forman con un centro ficticio.',
  'remedy.site.not-configured': 'Indique --site FILE antes de enviar nada a un servidor real.',
} as const satisfies Partial<Record<MessageKey, string>>;
