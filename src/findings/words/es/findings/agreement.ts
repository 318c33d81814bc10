import type { MessageKey } from '../../../message.js';

/** Dos lugares que dicen cosas distintas. */
export const agreementFindings = {
  'remedy.clinical.side-differs': 'Compruebe las imágenes y corrija el lugar equivocado.',
  'remedy.clinical.side-missing': 'Añada el lado, o el objetivo que falta.',
  'remedy.clinical.contrast-differs': 'Corrija el total o los eventos.',
  'remedy.clinical.contrast-route-differs': 'Corrija la vía, o añada el acceso que falta.',
  'finding.clinical.retained-without-complication':
    '{what} permanece en el paciente sin intención, y no consta ninguna complicación.',
  'remedy.clinical.retained-without-complication':
    'Inclúyalo en complications, con lo que se hizo al respecto.',
  'finding.clinical.own-case': 'Se nombra este mismo caso ({case}) donde corresponde uno anterior.',
  'remedy.clinical.own-case': 'Escriba el número del caso anterior, o quítelo.',
  'finding.clinical.consent-refused': 'El consentimiento se denegó o se retiró, y el caso se llevó a cabo.',
  'remedy.clinical.consent-refused':
    'Corrija el estado del consentimiento (given, emergency, not possible), o el estado del caso.',
  'finding.clinical.not-done-with-events': 'El caso consta como no realizado, y en él consta «{what}».',
  'remedy.clinical.not-done-with-events':
    'Escriba «stopped early» en case.status si el caso había empezado; si no, quite lo que no ocurrió.',
  'remedy.clinical.outcome-differs': 'Corrija el resultado global, o el lugar indicado.',
  'finding.clinical.death-differs':
    '{place} recoge un fallecimiento ({death}); esto se refiere a un paciente vivo: {told}.',
  'remedy.clinical.death-differs': 'Corrija el lugar equivocado; quite lo que ya no procede.',
  'remedy.clinical.complication-unsaid': 'Añádala a complications, o diga en el texto que ya existía antes.',
  'remedy.clinical.fluoroscopy-longer':
    'Compruebe la unidad y la cifra del tiempo de fluoroscopia, y el inicio y el final del caso.',
  'remedy.clinical.radiation-unsaid': 'Añada las cifras de la consola o del informe de dosis.',
  'remedy.clinical.haemoglobin-fall':
    'Busque un sangrado y anótelo como complicación, o acepte el aviso con lo que explica el descenso.',
  'remedy.clinical.measurement-differs': 'Corrija el valor equivocado.',
  'remedy.clinical.specimen-differs': 'Corrija las muestras o los eventos.',
  'remedy.clinical.closure-differs': 'Corrija cómo se cerró, o añada el producto y sus eventos.',
  'remedy.clinical.kind-differs': 'Corrija kind y title, o añada los productos y eventos que faltan.',
  'remedy.clinical.level-differs': 'Compruebe las imágenes y corrija el lugar equivocado.',
  'remedy.clinical.sex-differs':
    'Compruebe que se trata del paciente correcto; corrija el sexo o el texto, o acepte el aviso con un motivo.',
  'remedy.clinical.age-differs':
    'Compruebe que se trata del paciente correcto; corrija la fecha de nacimiento o el texto.',
  'remedy.clinical.pregnancy-differs': 'Pregunte de nuevo y corrija la respuesta o el texto.',
  'remedy.clinical.entered-twice': 'Quite una de las dos, o corrija la hora o la cantidad de la segunda.',
  'remedy.clinical.aftercare-device-out': 'Indique el producto que queda, o quite el producto de esta tarea.',
  'remedy.tally.left-differs':
    'Mire al paciente y corrija el lugar equivocado, o añada el evento que lo cambió.',
  'remedy.tally.not-deployed':
    'Añada deploy, release o detach después de que entrara y antes de que salga su catéter de liberación.',
  'remedy.tally.not-locked':
    'Bloquee el bucle y añada lock, o diga en su ajuste (setting) que se dejó sin bloquear.',
  'remedy.tally.not-filled': 'Llene el balón y añada inflate con el volumen.',
  'remedy.tally.flushed-before': 'Corrija la hora del lavado, o añada el que siguió a su colocación.',
  'remedy.tally.other-side': 'Corrija over o through.',
} as const satisfies Partial<Record<MessageKey, string>>;
