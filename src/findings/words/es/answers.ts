import type { answers as en } from '../en/answers.js';

/** Respuestas para un solo caso, y lo que une sus partes. */
export const answers: Record<keyof typeof en, string> = {
  quoted: '«{text}»',
  'answer.both': '{one} y {other}',
  'answer.then': '{one}; {other}',
  'answer.orElse': '{one}, o {other}',
  'answer.takeOut': 'Quítelo.',
  'answer.didYouMean': '¿Quería decir {names}?',
  'answer.useOneOf': 'Use uno de estos: {allowed}.',
  'answer.elsewhere': 'Su lugar es otro: {places}.',
  'answer.meantMissing': '¿Quería decir «{name}», que falta aquí?',
  'answer.declare': 'Declárelo: todavía no hay ninguna clave de este tipo ({what}).',
  'answer.add.list': 'Añada «{key}», una lista de entradas con {fields}.',
  'answer.add.group': 'Añada «{key}» con {fields}.',
  'answer.addReport': 'Añada «{key}» con {fields}, y con signedAt salvo que status sea preliminary.',
  'answer.addWith': 'Añada {path} con {field}.',
  'answer.takeLineOut': 'Quite la línea.',
  'answer.valueOrNone': 'Escriba un valor, o «none».',
  'answer.valueNeeded': 'Escriba un valor: el registro necesita este campo.',
  'answer.leaveLineOut': 'Quite la línea si no se anotó nada.',
  'answer.quoteText':
    'Dentro de {braces} o {brackets} una coma termina el texto que la precede: ponga todo el texto entre comillas.',
  'answer.quoteTextAs':
    'Dentro de {braces} o {brackets} una coma termina el texto que la precede: ponga todo el texto entre comillas, {text}.',
  'answer.realDay': 'Escriba un día que exista, YYYY-MM-DD.',
  'answer.asDate': 'Escriba YYYY, YYYY-MM o YYYY-MM-DD, o con hora 2024-03-14T09:04.',
  'answer.asTerm': 'Escriba un día YYYY-MM-DD, o un plazo como 6 weeks.',
  'answer.notDone':
    'Quite lo que no ocurrió; si el caso había empezado, ponga case.status y añada los eventos.',
  'answer.kindInWords':
    'Escriba el tipo de caso con palabras sencillas, como biliary drainage (drenaje biliar) o kidney biopsy (biopsia renal); el título puede decir más.',
  'answer.addFamily': 'Añada su familia: {families}.',
  'answer.removal': 'un evento remove con device {device}',
  'answer.removalPart': '{removal} y otro con part {part}',
  'answer.implantStays':
    'Si se queda, indique {key} en «left» con purpose intended; si salió, añada {removal}.',
  'answer.comesLater':
    '{place} lo sitúa a las {time} ({done}): corrija una de las dos horas y el orden de las líneas.',
  'answer.comesLaterStays':
    '{place} lo sitúa a las {time} ({done}), y «left» lo nombra: quite esta línea, o corrija su hora y «left».',
  'answer.calledUnused':
    'Indique el dispositivo que se quería nombrar; si era este, añada su inserción y corrija use ({use}).',
  'answer.removeBefore': 'Añada antes {removal}, o diga que el otro pasa por dentro.',
  'answer.partsOut':
    'Añada un evento remove con device {device}, part {key} y count {count}, o indique la pieza en «left» con purpose temporary o unintended, y until.',
  'answer.timeBefore': 'Corrija su hora a una anterior a las {time}, o la hora en que salió el otro.',
  'answer.takeTaskOut': 'Quite la tarea, o indique en «left» el dispositivo del que trata.',
  'answer.takeWordsOut': 'Corrija el texto, o indique en «left» el dispositivo del que trata.',
  'answer.strengthInUnits': 'Añada strength, como 1000 IU/mL, o escriba la dosis en IU.',
  'answer.markDrug': 'Ponga yes en {place}.reaction.',
  'answer.markContrast': 'Descríbala en {place}.reaction.',
  'answer.wentThrough':
    'Indique por dónde pasó, corrija el orden de los eventos, o diga que uno va sobre el otro.',
  'answer.wentOver':
    'Indique la guía sobre la que pasó, corrija el orden de los eventos, o diga que el otro pasa por dentro.',
  'answer.trapped':
    'Diga en through por dónde pasó, si no fue por este introductor; anote el introductor pelable, o que los dos salieron juntos; acepte el aviso si el conector se puede quitar.',
  'answer.notCarried': 'Quítelo de «left», o añada la inserción.',
  'answer.earlierCase': 'un caso anterior',
  'answer.anyTime': 'cualquier hora',
  'answer.lineKept': 'Corrija esa línea; se conservó.',
  'answer.byWhom': 'por quién',
  'answer.when': 'cuándo',
  'mend.tab': 'Sangre con espacios.',
  'mend.secondDocument': 'Envíe un caso por fichero, y quite la línea ---.',
  'mend.colon': 'Ponga entre comillas un texto que contenga «: ».',
  'mend.indent': 'Dé a los campos de un grupo la misma sangría; cierre cada {open} y cada [ con {close} y ].',
  'mend.fieldName': 'Busque justo antes de este lugar una comilla, un corchete o dos puntos que falten.',
  'mend.mark': 'Ponga el texto entre comillas.',
  'mend.alias': 'Ponga el texto entre comillas.',
  'mend.escape': 'Escriba \\\\ para una barra invertida.',
  'mend.quote': 'Cierre las comillas.',
  'mend.bracket': 'Cierre el corchete o la llave, y ponga una coma entre los campos.',
  'task.reviewLeft': 'Revisar o cambiar',
  'task.removeLeft': 'Retirar o cambiar',
  'setting.isCase': 'el fichero contiene un registro de caso.',
  'setting.isCaseFix':
    'Una configuración del centro empieza por «casetallySite: 1»; un caso se indica sin --site.',
  'setting.secret': 'aquí debe decirse dónde está el secreto.',
  'setting.secretFix': 'Escriba env:NAME o file:PATH, nunca el propio secreto.',
  'setting.digest':
    'aquí debe ir el resumen (hash) de un token, 64 cifras de 0 a 9 y de a a f, y no el token.',
  'setting.digestFix': 'Cree un token con casetally token new; imprime la línea que va aquí.',
  'sign.temperature': 'temperatura',
  'sign.oxygen saturation': 'saturación de oxígeno',
  'sign.pulse': 'pulso',
  'sign.systolic blood pressure': 'presión arterial sistólica',
  'sign.diastolic blood pressure': 'presión arterial diastólica',
  'sign.week of pregnancy': 'semana de embarazo',
  'sign.pH': 'pH',
  'measure.gradientTold': 'gradiente',
};
