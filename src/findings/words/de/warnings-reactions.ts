/** Findings about reactions that a report can print. */
export const reactionWarnings = {
  'finding.clinical.reaction-without-complication':
    'Zu „{given}“ ist eine Reaktion vermerkt, und keine Komplikation berichtet davon.',
  'finding.clinical.complication-without-reaction':
    'Die Komplikation „{what}“ ist eine allergische Reaktion, und bei keinem gegebenen Mittel ist sie vermerkt.',
} as const;
