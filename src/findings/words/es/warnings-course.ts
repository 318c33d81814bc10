/** Avisos sobre el curso del caso, contado en dos lugares. */
export const courseWarnings = {
  'finding.clinical.status-differs': 'Según su estado, el caso está terminado; {place} dice «{text}».',
  'finding.clinical.plan-differs': '«{text}» no concuerda con «{other}» ({place}).',
  'finding.clinical.complication-device':
    '«{what}» trata de un dispositivo que el caso no usó y que no estaba antes.',
  'finding.clinical.prophylaxis-differs':
    '«{text}» no concuerda con los antibióticos entre los fármacos ({drugs}).',
  'finding.clinical.allergy-unsaid': '«{text}» habla de una alergia que no consta en before.allergies.',
  'finding.clinical.severity-differs': '«{what}» se llama leve; {place} es «{consequence}».',
} as const;
