/**
 * What the bank must reach, as parts of 1; raised as rules are added, until 0.97 of the mistakes are caught and fewer
 * than 0.02 of the harmless variants give an alarm. Today's figures are those of the rules that were there before the
 * bank: 175 of 586 mistakes, 4 false alarms in 158.
 */
export const limits = {
  open: { caughtAtLeast: 0.29, falseAlarmsUnder: 0.02 },
  keptApart: { caughtAtLeast: 0.3, falseAlarmsUnder: 0.05 },
} as const;
