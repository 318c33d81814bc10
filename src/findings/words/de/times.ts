import type { times as en } from '../en/times.js';

/** Wofür die Zeiten eines Falls stehen, in den Befunden zu ihrer Reihenfolge. */
export const times: Record<keyof typeof en, string> = {
  'time.birth': 'die Geburt',
  'time.earlier': 'was vor diesem Fall war',
  'time.labBefore': 'der Laborwert vor dem Eingriff',
  'time.lastDose': 'die letzte Dosis vor dem Eingriff',
  'time.food': 'die letzte Mahlzeit',
  'time.fluids': 'das letzte Getränk',
  'time.consent': 'die Einwilligung',
  'time.signIn': 'das Sign-in',
  'time.timeOut': 'das Time-out',
  'time.caseDate': 'der Tag des Eingriffs',
  'time.start': 'der Beginn des Eingriffs',
  'time.sedationStart': 'der Beginn der Sedierung',
  'time.access': 'der erste Zugang',
  'time.event': 'das Ereignis',
  'time.last': 'das letzte Einbringen oder Entfernen',
  'time.lastIn': 'das letzte Einbringen',
  'time.drug': 'das Medikament',
  'time.drugOfCase': 'das Medikament',
  'time.contrast': 'das Kontrastmittel',
  'time.image': 'das Bild',
  'time.specimen': 'die Probe',
  'time.complication': 'die Komplikation',
  'time.death': 'der Tod',
  'time.sedationEnd': 'das Ende der Sedierung',
  'time.end': 'das Ende des Eingriffs',
  'time.signOut': 'das Sign-out',
  'time.signed': 'die Unterschrift',
  'time.change': 'die Änderung des Berichts',
  'time.labAfter': 'der Laborwert nach dem Eingriff',
  'time.urineFrom': 'der Beginn der Urinsammlung',
  'time.urineTo': 'das Ende der Urinsammlung',
  'time.of': '{what} ({whose})',
  'time.more.one': ' Eine weitere Zeit widerspricht ihr ebenfalls.',
  'time.more.other': ' {n} weitere Zeiten widersprechen ihr ebenfalls.',
  'time.future.other': ' {n} weitere Zeiten liegen ebenfalls in der Zukunft.',
  'time.beforeStart': 'vor dem Beginn',
  'time.afterEnd': 'nach dem Ende',
};

/** Warnungen zur Reihenfolge der Zeiten. */
export const timeWarnings = {
  'finding.record.order-of-times': '{later} ({laterTime}) liegt vor: {earlier} ({earlierTime}).{more}',
  'finding.record.outside-case': 'Dieses Ereignis, um {time}, liegt {side} des Eingriffs ({limit}).',
} as const;
