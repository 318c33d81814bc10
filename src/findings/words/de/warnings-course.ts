/** Warnungen zum Verlauf, der an zwei Stellen erzählt wird. */
export const courseWarnings = {
  'finding.clinical.status-differs':
    'Der Fall gilt nach seinem Status als abgeschlossen; {place} sagt „{text}“.',
  'finding.clinical.plan-differs': '„{text}“ passt nicht zu „{other}“ ({place}).',
  'finding.clinical.severity-differs': '„{what}“ heißt leicht; {place} ist „{consequence}“.',
} as const;
