import type { MessageKey } from '../../../message.js';

/** Registereinträge. */
export const registryFindings = {
  'finding.registry.missing': 'Fall {case}: im Registereintrag zum Produkt „{device}“ fehlt {what}.',
  'remedy.registry.missing': '{remedy}',
  'finding.registry.key-missing':
    'Das Register „{registry}“ hat kein Geheimnis für Pseudonyme: dieser Aufbau lässt sich mit keinem anderen verknüpfen.',
  'remedy.registry.key-missing':
    'Setzen Sie key in den Einstellungen des Registers in der Konfiguration der Einrichtung (env:NAME oder file:PATH).',
  'finding.registry.no-device': 'Fall {case} hat kein Produkt, das ein Register aufnähme.',
  'remedy.registry.no-device': 'Nichts zu tun.',
} satisfies Partial<Record<MessageKey, string>>;
