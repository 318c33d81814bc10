/** Warnungen zum Verlauf, der an zwei Stellen erzählt wird. */
export const courseWarnings = {
  'finding.clinical.status-differs':
    'Der Fall gilt nach seinem Status als abgeschlossen; {place} sagt „{text}“.',
  'finding.clinical.plan-differs': '„{text}“ passt nicht zu „{other}“ ({place}).',
  'finding.clinical.prophylaxis-differs':
    '„{text}“ passt nicht zu den Antibiotika unter den Medikamenten ({drugs}).',
  'finding.clinical.allergy-unsaid': '„{text}“ nennt eine Allergie, die unter before.allergies fehlt.',
  'finding.clinical.severity-differs': '„{what}“ heißt leicht; {place} ist „{consequence}“.',
  'finding.clinical.device-unlisted':
    '„{text}“ nennt ein Produkt ({device}), das in der Liste der Produkte fehlt.',
  'finding.clinical.complication-device':
    'Die Komplikation „{text}“ betrifft ein Produkt ({device}), das der Fall nicht verwendet hat.',
  'finding.clinical.drug-unsaid':
    '„{agent}“ wurde laut Ablauf gespritzt; unter den Arzneimitteln fehlt {drug}.',
} as const;
