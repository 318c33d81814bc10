/** Avisos sobre lo que no se encuentra. */
export const missingWarnings = {
  'finding.tally.missing': 'No se encuentra {what}. Se buscó: {searched}. Imagen: {imaging}.',
} as const;
