/** Findings about reactions that a report can print. */
export const reactionWarnings = {
  'finding.clinical.reaction-without-complication':
    'Consta una reacción a «{given}» y ninguna complicación la recoge.',
  'finding.clinical.complication-without-reaction':
    'La complicación «{what}» es una reacción alérgica y no consta en nada de lo administrado.',
} as const;
