/** Avisos sobre el curso del caso, contado en dos lugares. */
export const courseWarnings = {
  'finding.clinical.status-differs': 'Según su estado, el caso está terminado; {place} dice «{text}».',
  'finding.clinical.plan-differs': '«{text}» no concuerda con «{other}» ({place}).',
  'finding.clinical.severity-differs': '«{what}» se llama leve; {place} es «{consequence}».',
} as const;
