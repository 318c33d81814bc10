/**
 * What the bank must reach, as parts of 1: 0.98 of the mistakes caught and fewer than 0.01 of the harmless variants giving
 * an alarm. The part kept apart was written by somebody who saw no rule, has not been looked at since, and is held to what
 * it reaches; once it is opened it belongs to the rest, and a new part is written.
 */
export const limits = {
  open: { caughtAtLeast: 0.98, falseAlarmsUnder: 0.01 },
  keptApart: { caughtAtLeast: 0.62, falseAlarmsUnder: 0.01 },
} as const;
