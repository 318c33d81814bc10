/** Warnungen zum Plan für das, was im Körper bleibt. */
export const leftWarnings = {
  'finding.clinical.latest-differs':
    '„{what}“ ist für {planned} geplant, aber {device} darf nur bis {latest} bleiben.',
  'finding.clinical.setting-without-criteria':
    '{device} bleibt mit der Einstellung „{set}“, und nichts Messbares sagt, wann sich das ändert.',
  'finding.clinical.contact-missing':
    'Etwas bleibt im Körper oder ist noch zu tun, und niemand ist genannt, der anzurufen ist.',
} as const;
