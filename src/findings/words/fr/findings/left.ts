import type { MessageKey } from '../../../message.js';

/** Le plan pour ce qui reste en place. */
export const leftFindings = {
  'remedy.clinical.latest-differs': 'Corrigez latest dans left, ou la date de cette tâche.',
  'remedy.clinical.setting-without-criteria':
    'Ajoutez criteria à sa tâche dans aftercare : mesure, valeur, durée et ce qui s’ensuit.',
  'remedy.clinical.contact-missing':
    'Ajoutez advice.contact, ou indiquez contact dans la configuration de l’établissement.',
} as const satisfies Partial<Record<MessageKey, string>>;
