/** Avisos sobre el curso del caso, contado en dos lugares. */
export const courseWarnings = {
  'finding.clinical.status-differs': 'Según su estado, el caso está terminado; {place} dice «{text}».',
  'finding.clinical.plan-differs': '«{text}» no concuerda con «{other}» ({place}).',
  'finding.clinical.prophylaxis-differs':
    '«{text}» no concuerda con los antibióticos entre los fármacos ({drugs}).',
  'finding.clinical.allergy-unsaid': '«{text}» habla de una alergia que no consta en before.allergies.',
  'finding.clinical.severity-differs': '«{what}» se llama leve; {place} es «{consequence}».',
  'finding.clinical.device-unlisted': '«{text}» nombra un producto ({device}) que no figura en la lista.',
  'finding.clinical.complication-device':
    'La complicación «{text}» se refiere a un producto ({device}) que no se usó en el caso.',
  'finding.clinical.drug-unsaid':
    '«{agent}» se inyectó según los eventos y {drug} no figura entre los medicamentos.',
} as const;
