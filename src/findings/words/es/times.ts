import type { times as en } from '../en/times.js';

/** Lo que representan las horas de un caso, en los hallazgos sobre su orden. */
export const times: Record<keyof typeof en, string> = {
  'time.birth': 'el nacimiento',
  'time.earlier': 'lo que fue antes de este caso',
  'time.labBefore': 'el valor de laboratorio antes del caso',
  'time.lastDose': 'la última dosis antes del caso',
  'time.food': 'la última comida',
  'time.fluids': 'la última bebida',
  'time.consent': 'el consentimiento',
  'time.signIn': 'la entrada (sign-in)',
  'time.timeOut': 'la pausa (time-out)',
  'time.caseDate': 'el día del caso',
  'time.start': 'el comienzo del caso',
  'time.sedationStart': 'el comienzo de la sedación',
  'time.access': 'el primer acceso',
  'time.event': 'el evento',
  'time.last': 'la última inserción o retirada',
  'time.lastIn': 'la última inserción',
  'time.drug': 'el fármaco',
  'time.drugOfCase': 'el fármaco',
  'time.contrast': 'el contraste',
  'time.image': 'la imagen',
  'time.specimen': 'la muestra',
  'time.complication': 'la complicación',
  'time.death': 'la muerte',
  'time.sedationEnd': 'el final de la sedación',
  'time.end': 'el final del caso',
  'time.signOut': 'la salida (sign-out)',
  'time.signed': 'la firma',
  'time.change': 'el cambio del informe',
  'time.labAfter': 'el valor de laboratorio después del caso',
  'time.urineFrom': 'el comienzo de la recogida de orina',
  'time.urineTo': 'el final de la recogida de orina',
  'time.of': '{what} ({whose})',
  'time.more.one': ' Otra hora también la contradice.',
  'time.more.other': ' Otras {n} horas también la contradicen.',
  'time.future.other': ' Otras {n} horas también lo están.',
  'time.beforeStart': 'antes del comienzo',
  'time.afterEnd': 'después del final',
};

/** Avisos sobre el orden de las horas. */
export const timeWarnings = {
  'finding.record.order-of-times': '{later} ({laterTime}) es anterior a: {earlier} ({earlierTime}).{more}',
  'finding.record.outside-case': 'Este evento, a las {time}, es {side} del caso ({limit}).',
} as const;
