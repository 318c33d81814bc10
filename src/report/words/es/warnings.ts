import type { WarningTerms, WarningWords } from '../warnings.js';

const messages: WarningWords = {
  'size.wire-too-big': 'A las {time}: {wire} tiene un grosor de {wireSize}; {device} admite {lumen}.',
  'size.wire-undersized':
    'A las {time} {device}, hecho para {lumen}, va sobre {wire} de {wireSize}: poco apoyo.',
  'size.wire-system':
    'A las {time} {device}, hecho para guías de {lumen}, va sobre {wire} de {wireSize}: otro sistema de guía.',
  'size.device-too-big': 'A las {time}: {device} tiene un grosor de {size}; {host} admite {lumen}.',
  'size.wire-too-short':
    'A las {time}, {device} sobre {wire}: se necesitan {needed}, la guía tiene {length}, {short} de menos para mantener su posición.',
  'size.sheath-trapped':
    'A las {time} se retira {sheath} mientras {device} sigue dentro; el introductor no es pelable y no pasa por el conector.',
  'size.wire-occupied': 'A las {time} {device} va sobre {wire} mientras {other} sigue en ella.',
  'size.over-pressure': '{device} se infla a {pressure} a las {time}; su presión nominal es {rated}.',
  'size.deeper-than-long': 'A las {time} consta que {device} está {depth} dentro; mide {length}.',
  'size.oversize':
    '{device} se abrió a {open} en {target}, que al lado mide {diameter}: el {percent} de ese valor.',
  'size.undersize':
    '{device} se abrió a {open} en {target}, que al lado mide {diameter}: el {percent} de ese valor.',
  'size.stent-short':
    'Con {device} quedan {covered} de stent en {target}, cuya lesión mide {length}: no está cubierta.',
  'size.balloon-short': 'Con {device} se inflaron {covered} de balón en {target}, cuya lesión mide {length}.',
  'size.ureteric-short': '{device} mide {length}; el uréter midió {measured}.',
  'size.ureteric-long': '{device} mide {length}; el uréter midió {measured}, más de 4 cm menos.',
  'size.shaft-short':
    'El cuerpo de {device} mide {shaft}; la distancia del acceso a {target} es de {way}, {short} más.',
  'device.kind-unknown':
    '«{kind}» ({device}) no es ningún tipo de producto conocido aquí, y no se indica la familia.',
  'acknowledged.error': 'El registro acepta «{code}», que es un error: solo se pueden aceptar los avisos.',
  'tally.removed-inflated': '{device} se retira a las {time} y no consta que se desinflara.',
  'tally.removed-locked':
    '{device} se retira a las {time} con el bucle bloqueado; no consta que se desbloqueara.',
  'tally.thread-undeclared':
    '{device} a las {time}: entre sus partes no se declara ningún hilo de retención, así que no se sigue ninguno.',
  'tally.damaged': '{device} salió dañado a las {time}; el registro no dice que estuviera completo.',
  'tally.left-count-missing':
    '{what}: según los pasos quedan {number}, y la línea de lo que queda no da el número.',
  'tally.no-condition': '{what} queda por un tiempo, y nada dice cuándo ni con qué condición se retira.',
  'tally.retained': '{what} permanece en el paciente sin intención.',
  'tally.carried-case': '{device} se colocó en un caso anterior, y el registro no dice en cuál.',
  'clinical.dose-unit-slip':
    'El producto kerma-área {product} y el kerma en aire {kerma} no concuerdan: dan un campo medio de {area} cm², fuera de {least} a {most} cm².',
  'clinical.dose-rate': '{what} {value} en {time} de fluoroscopia es {rate}, fuera del intervalo esperado.',
  'clinical.dose-scan-length':
    'El producto dosis-longitud {product} y el índice de dosis de TC {index} no concuerdan: dan una longitud explorada de {length} cm, fuera de {least} a {most} cm.',
  'clinical.dose-substantial': '{what} {value} alcanzó el nivel de dosis sustancial de {limit}.',
  'clinical.skin-review-missing':
    'Se alcanzó un nivel de dosis sustancial y ningún seguimiento del registro mira la piel; se propone uno.',
  'clinical.pregnant': 'Se usó radiación y consta un embarazo.',
  'clinical.pregnancy-not-asked': 'Se usó radiación y no consta respuesta a la pregunta sobre el embarazo.',
  'clinical.egfr-contrast':
    'Se administró contraste intravascular con un filtrado estimado de {egfr} mL/min/1,73 m², por debajo de {limit}.',
  'clinical.contrast-volume': '{volume} mL de contraste intravascular superan el límite de {limit} mL.',
  'clinical.value-implausible': '{what} de {value} no puede ser correcto: es posible {range}.',
  'clinical.allergy-cross':
    'Se administró «{given}» y consta una alergia a «{allergy}»; una reacción cruzada es {likelihood}.',
  'clinical.device-allergy': '«{device}» tiene {substance} y consta una alergia a «{allergy}».',
  'clinical.local-anaesthetic-sum':
    'Los anestésicos locales juntos ({drugs}) alcanzan el {percent} % de sus límites.',
  'clinical.allergy-given': 'Se administró «{given}» y consta una alergia a «{allergy}».',
  'clinical.lab-missing': 'No consta {lab} antes de este procedimiento de riesgo de sangrado {risk}.',
  'clinical.lab-old': '{lab}: valor de hace {days} días; el límite es de {limit} días.',
  'clinical.lab-threshold':
    '{lab} {value} está más allá del umbral de {limit} para un procedimiento de riesgo de sangrado {risk}.',
  'clinical.hold-short':
    'La última dosis de «{drug}» fue {hours} h antes del acceso; la tabla de tiempos de suspensión pide {limit} h.',
  'clinical.hold-unknown': 'No consta la última dosis de «{drug}».',
  'clinical.prophylaxis-late':
    '«{drug}» para profilaxis se dio por primera vez a las {time}, después del acceso a las {access}.',
  'clinical.prophylaxis-early':
    '«{drug}» para profilaxis se dio {minutes} min antes del acceso; el límite es de {limit} min.',
  'clinical.local-anaesthetic': '«{drug}» {dose} mg son {perKg} mg/kg, por encima de {limit} mg/kg.',
  'clinical.fasting': '{what}: última toma {hours} h antes de la sedación; el límite es de {limit} h.',
  'clinical.grade-differs':
    '«{what}» tiene el grado {written} ({scale}), y las consecuencias registradas dan {computed}.',
  'clinical.grade-missing': 'La complicación «{what}» no tiene grado.',
  'clinical.success-differs':
    'El éxito técnico registrado en «{target}» no concuerda con el resto de lo registrado.',
  'clinical.due-uncountable': '«{written}» no se puede convertir en un día.',
  'clinical.kidney-injury':
    'La creatinina posterior al procedimiento cumple los criterios de lesión renal aguda, estadio {stage}.',
  'clinical.prophylaxis-redose':
    'No consta otra dosis de «{drug}» para profilaxis durante {span} después de las {time}; el intervalo es de {limit} h.',
  'clinical.narrowing-differs':
    'La estrechez en «{target}» consta como {written} y según los diámetros es del {computed}%, con más de {limit} puntos de diferencia.',
  'clinical.session-without-earlier':
    'Esta es la sesión {session}, y el registro no remite a ningún intento anterior.',
  'clinical.criterion-value':
    'La condición sobre «{measure}» está incompleta: tal como está escrita, nadie puede actuar según ella.',
  'clinical.capped-without-criteria':
    '«{device}» queda tapado o pinzado, y nada dice qué decide que se abra o se retire.',
  'clinical.later-than-policy':
    '«{what}» está previsto para {planned}; la norma del centro lo permite hasta {allowed}.',
};

const terms: WarningTerms = {
  low: 'bajo',
  high: 'alto',
  Food: 'Comida',
  'Clear fluids': 'Líquidos claros',
  'Air kerma': 'Kerma en aire',
  'Kerma-area product': 'Producto kerma-área',
  'Peak skin dose': 'Dosis máxima en piel',
  'Fluoroscopy time': 'Tiempo de fluoroscopia',
  creatinine: 'creatinina',
  platelets: 'plaquetas',
  fibrinogen: 'fibrinógeno',
  likely: 'probable',
  possible: 'posible',
  rare: 'rara',
  uncommon: 'poco frecuente',
  unlikely: 'improbable',
  'possible (by side chain)': 'posible (según la cadena lateral)',
  'possible (same side chain)': 'posible (misma cadena lateral)',
  'possible (about 16 %, same side chain)': 'posible (cerca del 16 %, misma cadena lateral)',
  'unlikely (about 2 %)': 'improbable (cerca del 2 %)',
  'rare (under 1 %)': 'rara (menos del 1 %)',
};

/** Avisos que un registro puede aceptar. */
export const warnings = { messages, terms };
