import type { ReportedKey } from '../reported.js';
import { agreementWarnings } from './warnings-agreement.js';
import { courseWarnings } from './warnings-course.js';
import { leftWarnings } from './warnings-left.js';
import { missingWarnings } from './warnings-missing.js';

/** Avisos que un registro puede aceptar. */
export const warnings = {
  ...agreementWarnings,
  ...courseWarnings,
  ...leftWarnings,
  ...missingWarnings,
  'finding.size.wire-too-big': 'A las {time}: {wire} tiene un grosor de {wireSize}; {device} admite {lumen}.',
  'finding.size.wire-undersized':
    'A las {time} {device}, hecho para {lumen}, va sobre {wire:def} de {wireSize}: poco apoyo.',
  'finding.size.wire-system':
    'A las {time} {device}, hecho para guías de {lumen}, va sobre {wire:def} de {wireSize}: otro sistema de guía.',
  'finding.size.device-too-big': 'A las {time}: {device} tiene un grosor de {size}; {host} admite {lumen}.',
  'finding.size.inner-short':
    'A las {time} {device}, de {length}, pasa por dentro {host:de}, de {hostLength}: no puede salir por su extremo.',
  'finding.size.wire-too-short':
    'A las {time}: {device} {way} sobre {wire:def}; {sum} suman {needed}, la guía tiene {length}, {short} de menos para mantener su posición.',
  'finding.size.sheath-trapped':
    'A las {time} se retira {sheath} mientras {device} sigue dentro; el introductor no es pelable y no pasa por el conector.',
  'finding.size.wire-occupied': 'A las {time} {device} va sobre {wire:def} mientras {other} sigue en ella.',
  'finding.size.over-pressure':
    '{device} se infla a {pressure} a las {time}; su presión de rotura nominal es {rated}.',
  'finding.size.deeper-than-long': 'A las {time} consta que {device} está {depth} dentro; mide {length}.',
  'finding.size.oversize':
    '{device} se abrió a {open} en {target}, que al lado mide {diameter}: el {percent} de ese valor.',
  'finding.size.undersize':
    '{device} se abrió a {open} en {target}, que al lado mide {diameter}: el {percent} de ese valor.',
  'finding.size.stent-short':
    'Con {device:def} quedan {covered} de stent en {target}, cuya lesión mide {length}: no está cubierta.',
  'finding.size.balloon-short':
    'Con {device:def} se inflaron {covered} de balón en {target}, cuya lesión mide {length}.',
  'finding.size.ureteric-short': '{device} mide {length}; el uréter midió {measured}.',
  'finding.size.ureteric-long': '{device} mide {length}; el uréter midió {measured}, más de 4 cm menos.',
  'finding.size.shaft-short':
    'El cuerpo {device:de} mide {shaft}; la distancia del acceso a {target} es de {way}, {short} más.',
  'finding.device.kind-unknown':
    '«{kind}» ({device}) no es ningún tipo de producto conocido aquí, y no se indica la familia.',
  'finding.acknowledged.error':
    'El registro acepta «{code}»{about}, que es un error: solo se pueden aceptar los avisos.',
  'finding.tally.removed-inflated': '{device} se retira a las {time} y no consta que se desinflara.',
  'finding.tally.removed-locked':
    '{device} se retira a las {time} con el bucle bloqueado; no consta que se desbloqueara.',
  'finding.tally.thread-undeclared':
    '{device} {done} a las {time}: entre sus partes no se declara ningún hilo de retención, así que no se sigue ninguno.',
  'finding.tally.damaged': '{device} salió dañado a las {time}; el registro no dice que estuviera completo.',
  'finding.tally.left-count-missing':
    '{what}: según los pasos quedan {number}, y la línea de lo que queda no da el número.',
  'finding.tally.no-condition':
    '{what} queda por un tiempo, y nada dice cuándo ni con qué condición se retira.',
  'finding.tally.retained': '{what} permanece en el paciente sin intención.',
  'finding.tally.carried-case': '{device} se colocó en un caso anterior, y el registro no dice en cuál.',
  'finding.clinical.dose-unit-slip':
    'El producto kerma-área {product} y el kerma en aire {kerma} no concuerdan: dan un campo medio de {area} cm², fuera de {least} a {most} cm². {slip}',
  'finding.clinical.dose-rate': '{what} {value} en {time} de fluoroscopia es {rate}, fuera de {range}.',
  'finding.clinical.dose-scan-length':
    'El producto dosis-longitud {product} y el índice de dosis de TC {index} dan una longitud explorada de {length} cm, fuera de {least} a {most} cm. {slip}',
  'finding.clinical.dose-substantial': '{what} {value} alcanzó el nivel de dosis sustancial de {limit}.',
  'finding.clinical.skin-review-missing':
    'Se alcanzó un nivel de dosis sustancial y ningún seguimiento del registro mira la piel; se propone uno.',
  'finding.clinical.pregnant': 'Se usó radiación y consta un embarazo.',
  'finding.clinical.pregnancy-not-asked':
    'Se usó radiación y no consta respuesta a la pregunta sobre el embarazo.',
  'finding.clinical.egfr-contrast':
    'Se administró contraste intravascular con un filtrado estimado de {egfr} mL/min/1,73 m², por debajo de {limit}.',
  'finding.clinical.contrast-volume':
    '{volume} mL de contraste intravascular superan el límite de {limit} mL ({rule}).',
  'finding.clinical.allergy-given': 'Se administró «{given}» y consta una alergia a «{allergy}».',
  'finding.clinical.lab-missing': 'No consta {lab} antes de este procedimiento de riesgo de sangrado {risk}.',
  'finding.clinical.lab-old': '{lab}: valor de hace {days} días; el límite es de {limit} días.',
  'finding.clinical.lab-threshold':
    '{lab} {value} está más allá del umbral de {limit} para un procedimiento de riesgo de sangrado {risk}.',
  'finding.clinical.hold-short':
    'La última dosis de «{drug}» fue {hours} h antes del acceso; se pide una suspensión de {limit} h.',
  'finding.clinical.hold-unknown': 'No consta la última dosis de «{drug}».',
  'finding.clinical.prophylaxis-late':
    '«{drug}» para profilaxis se dio por primera vez a las {time}, después del acceso a las {access}.',
  'finding.clinical.prophylaxis-early':
    '«{drug}» para profilaxis se dio {minutes} min antes del acceso; el límite es de {limit} min.',
  'finding.clinical.local-anaesthetic': '{what}',
  'finding.clinical.fasting':
    '{what}: última toma {hours} h antes de la sedación; el límite es de {limit} h.',
  'finding.clinical.grade-differs':
    '«{what}» tiene el grado {written} ({scale}), y las consecuencias registradas dan {computed}.',
  'finding.clinical.grade-missing': 'La complicación «{what}» no tiene grado.',
  'finding.clinical.success-differs':
    'El éxito técnico en «{target}» consta como: {written}; en contra: {why}.',
  'finding.clinical.due-uncountable': '«{written}» no se puede convertir en un día ni en una hora.',
  'finding.clinical.kidney-injury':
    'La creatinina posterior al procedimiento cumple los criterios de lesión renal aguda, estadio {stage}.',
  'finding.clinical.prophylaxis-redose':
    'No consta otra dosis de «{drug}» para profilaxis durante {span} después de las {time}; el intervalo es de {limit} h.',
  'finding.clinical.narrowing-differs':
    'La estrechez en «{target}» consta como {written} y según los diámetros es del {computed}%, con más de {limit} puntos de diferencia.',
  'finding.clinical.session-without-earlier':
    'Esta es la sesión {session}, y el registro no remite a ningún intento anterior.',
  'finding.clinical.criterion-value':
    'La condición «{measure} {is}» {wanted}: tal como está escrita, nadie puede actuar según ella.',
  'finding.clinical.capped-without-criteria':
    '«{device}» queda tapado o pinzado, y nada dice qué decide que se abra o se retire.',
  'finding.clinical.later-than-policy':
    '«{what}» está previsto para {planned}; la norma del centro lo permite hasta {allowed}.',
  'finding.clinical.allergy-cross':
    'Se administró «{given}» y consta una alergia a «{allergy}»; una reacción cruzada es {likelihood}.',
  'finding.clinical.allergy-device': '«{device}»: {substance}, y consta una alergia a «{allergy}».',
} satisfies Partial<Record<ReportedKey, string>>;
