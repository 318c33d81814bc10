/** Warnungen zum Verlauf, der an zwei Stellen erzählt wird. */
export const courseWarnings = {
  'finding.clinical.status-differs':
    'Der Fall gilt nach seinem Status als abgeschlossen; {place} sagt „{text}“.',
  'finding.clinical.plan-differs': '„{text}“ passt nicht zu „{other}“ ({place}).',
  'finding.clinical.complication-device':
    '„{what}“ betrifft ein Instrument, das der Fall nicht verwendet hat und das vorher nicht da war.',
  'finding.clinical.prophylaxis-differs':
    '„{text}“ passt nicht zu den Antibiotika unter den Medikamenten ({drugs}).',
  'finding.clinical.allergy-unsaid': '„{text}“ nennt eine Allergie, die unter before.allergies fehlt.',
  'finding.clinical.severity-differs': '„{what}“ heißt leicht; {place} ist „{consequence}“.',
} as const;
