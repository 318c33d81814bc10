/**
 * What the bank must reach, as parts of 1; raised as rules are added, until 0.97 of the mistakes are caught and fewer
 * than 0.02 of the harmless variants give an alarm. Today: 416 of
 * 586 mistakes, 3 false alarms in 158.
 */
export const limits = {
  open: { caughtAtLeast: 0.71, falseAlarmsUnder: 0.02 },
  keptApart: { caughtAtLeast: 0.7, falseAlarmsUnder: 0.05 },
} as const;
