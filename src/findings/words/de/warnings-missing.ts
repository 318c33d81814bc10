/** Warnungen zu dem, was nicht auffindbar ist. */
export const missingWarnings = {
  'finding.tally.missing': '{what} ist nicht auffindbar. Gesucht: {searched}. Bildgebung: {imaging}.',
} as const;
