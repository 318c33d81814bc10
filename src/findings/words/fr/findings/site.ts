import type { MessageKey } from '../../../message.js';

/** La configuration de l’établissement. */
export const siteFindings = {
  'finding.site.setting': 'Configuration de l’établissement : {message}',
  'remedy.site.setting': '{fix}',
  'finding.site.not-configured':
    'Aucune configuration de l’établissement n’a été donnée : les identifiants sont faits sous un établissement fictif.',
  'remedy.site.not-configured': 'Donnez --site FILE avant tout envoi à un vrai serveur.',
} as const satisfies Partial<Record<MessageKey, string>>;
