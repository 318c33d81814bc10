import type { MessageKey } from '../../../message.js';

/** Die Konfiguration der Einrichtung. */
export const siteFindings = {
  'finding.site.setting': 'Konfiguration der Einrichtung: {message}',
  'remedy.site.setting': '{fix}',
  'finding.site.not-configured':
    'Keine Konfiguration der Einrichtung angegeben: Kennungen entstehen unter einem Platzhalter.',
  'remedy.site.not-configured': 'Geben Sie --site FILE an, bevor etwas an einen echten Server geht.',
} satisfies Partial<Record<MessageKey, string>>;
