import type { MessageKey } from '../../../message.js';

/** Der Plan für das, was im Körper bleibt. */
export const leftFindings = {
  'remedy.clinical.latest-differs': 'Berichtigen Sie latest unter left, oder das Datum dieses Eintrags.',
  'remedy.clinical.setting-without-criteria':
    'Ergänzen Sie criteria am Eintrag in aftercare: Messgröße, Wert, wie lange und was dann folgt.',
  'remedy.clinical.contact-missing':
    'Ergänzen Sie advice.contact, oder setzen Sie contact in der Konfiguration der Einrichtung.',
} satisfies Partial<Record<MessageKey, string>>;
