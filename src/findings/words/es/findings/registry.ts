import type { MessageKey } from '../../../message.js';

/** Entradas de los registros de calidad. */
export const registryFindings = {
  'finding.registry.identifier-missing':
    'Caso {case}: a la entrada del registro de calidad para el producto «{device}» le falta un identificador del producto.',
  'remedy.registry.identifier-missing': 'Escanee la etiqueta o indique udi.',
  'finding.registry.lot-missing':
    'Caso {case}: a la entrada del registro de calidad para el producto «{device}» le falta un número de lote o de serie.',
  'remedy.registry.lot-missing': 'Escanee la etiqueta o indique lot o serial.',
  'finding.registry.placed-missing':
    'Caso {case}: a la entrada del registro de calidad para el producto «{device}» le falta el día en que se colocó.',
  'remedy.registry.placed-missing': 'Indique carried.date con la precisión que se conozca.',
  'finding.registry.held-back':
    'El caso {case} no se entrega a ningún registro de calidad: errores en su ficha: {count}.',
  'remedy.registry.held-back': 'Corrija lo que aquí se indica y vuelva a generar las entradas.',
  'finding.registry.preliminary': 'El caso {case} espera: su informe es preliminar.',
  'remedy.registry.preliminary': 'Vuelva a generar las entradas cuando el informe sea definitivo.',
  'finding.registry.newer-version':
    'Caso {case}: la versión {version} también está entre los archivos y cuenta en lugar de esta.',
  'remedy.registry.newer-version': 'No hay que hacer nada.',
  'finding.registry.given-twice':
    'El caso {case} está más de una vez entre los archivos, palabra por palabra; cuenta una sola vez.',
  'remedy.registry.given-twice': 'No hay que hacer nada.',
  'finding.registry.version-twice': 'Caso {case}: dos fichas distintas dicen ser su versión {version}.',
  'remedy.registry.version-twice': 'Quite la que no vale o dé a la posterior la versión siguiente.',
  'finding.registry.kind-unlisted':
    'Caso {case}: con las palabras «{kind}» no se conoce ningún tipo de procedimiento, así que no se puede decir a un registro de calidad qué se hizo.',
  'remedy.registry.kind-unlisted':
    'Escriba el tipo como es habitual, por ejemplo nephrostomy exchange o caval filter insertion.',
  'finding.registry.patient-numbers':
    'El paciente tiene varios números y nada dice por cuál se guía el registro de calidad.',
  'remedy.registry.patient-numbers':
    'Indique patientSystem en los ajustes del registro de calidad de la configuración del centro.',
  'finding.registry.patient-number-missing':
    'El paciente no tiene ningún número, o tiene varios, del sistema por el que se guía el registro de calidad ({system}).',
  'remedy.registry.patient-number-missing': 'Dé el único número de ese sistema en patient.identifiers.',
  'finding.registry.withheld':
    'Producto «{device}»: {field} no se envía al registro de calidad, porque un texto escrito a mano puede nombrar a una persona y nada más lo confirma.',
  'remedy.registry.withheld':
    'Escanee la etiqueta; o incluya el texto en el catálogo de productos o en allowed de los ajustes del registro de calidad.',
  'finding.registry.key-missing':
    'El registro de calidad «{registry}» no tiene secreto para los seudónimos: esta salida no se puede enlazar con ninguna otra.',
  'remedy.registry.key-missing':
    'Indique key en los ajustes del registro de calidad de la configuración del centro (env:NAME o file:PATH).',
  'finding.registry.key-newline':
    'El secreto del registro de calidad «{registry}» ({key}) termina en un salto de línea, que se toma como parte de él.',
  'remedy.registry.key-newline':
    'Ponga keyEndsInNewline: true donde ya se hayan creado seudónimos con él; si no, guarde el archivo sin el salto de línea.',
  'finding.registry.no-device': 'El caso {case} no tiene ningún producto que un registro de calidad recoja.',
  'remedy.registry.no-device': 'No hay que hacer nada.',
  'finding.registry.element-missing':
    'Caso {case}: el registro de calidad no puede prescindir de «{element}» del producto «{device}».',
  'remedy.registry.element-missing':
    'Indíquelo en el registro del caso; la definición del registro de calidad dice qué pide.',
  'finding.registry.element-wanted':
    'Caso {case}: el registro de calidad desearía «{element}» del producto «{device}».',
  'remedy.registry.element-wanted': 'Indíquelo en el registro del caso si se conoce.',
  'finding.registry.value-not-taken':
    'Caso {case}, producto «{device}»: el registro de calidad no acepta «{value}» como «{element}».',
  'remedy.registry.value-not-taken':
    'Corrija el registro del caso; o pida al registro de calidad una definición que contenga este valor.',
  'finding.registry.value-too-long':
    'Caso {case}, producto «{device}»: «{element}» es más largo de lo que acepta el registro de calidad ({count} caracteres).',
  'remedy.registry.value-too-long':
    'Corrija el registro del caso, o pregunte al registro de calidad qué hacer.',
  'finding.registry.few-alike':
    'Caso {case}: menos de {count} personas coinciden en lo que nombra el registro de calidad, por lo que sus fechas y su edad se envían con menos precisión.',
  'remedy.registry.few-alike': 'No hay que hacer nada.',
  'finding.registry.too-few-alike':
    'Caso {case}: menos de {count} personas coinciden incluso con las fechas y la edad menos precisas; la definición del registro de calidad lo retiene.',
  'remedy.registry.too-few-alike': 'Saldrá por sí solo con un envío posterior, cuando haya más.',
  'finding.registry.refused':
    'Caso {case}: el registro de calidad rechazó la entrada del producto «{device}» ({code}): {says}',
  'remedy.registry.refused': '{remedy} Después, casetally registry send: sale como la versión siguiente.',
  'finding.registry.not-answered':
    'Caso {case}: en la respuesta del registro de calidad falta la entrada del producto «{device}».',
  'remedy.registry.not-answered':
    'Pregunte al registro de calidad, o envíela otra vez: casetally registry resend.',
  'finding.registry.answer-unknown-entry':
    'La línea {line} de la respuesta trata de una entrada que no está en este lote.',
  'remedy.registry.answer-unknown-entry': 'Pregunte al registro de calidad; esa línea no cambió nada.',
  'finding.registry.answer-other-version':
    'La línea {line} de la respuesta trata de la versión {version} de una entrada; en este lote se envió la versión {sent}.',
  'remedy.registry.answer-other-version': 'No hay que hacer nada; esa línea no cambió nada.',
  'finding.registry.answer-other-digest': 'La respuesta trata de otros bytes que los del lote {batch}.',
  'remedy.registry.answer-other-digest': 'Pregunte al registro de calidad qué recibió; no se cambió nada.',
  'finding.registry.answer-incomplete':
    'La respuesta al lote {batch} termina antes de estar completa; se leyeron {count} de sus líneas.',
  'remedy.registry.answer-incomplete':
    'Obtenga la respuesta completa y concilie de nuevo: lo leído se conserva.',
  'finding.registry.answer-unreadable': 'La línea {line} de la respuesta no se puede leer: {why}',
  'remedy.registry.answer-unreadable': 'Obtenga la respuesta otra vez; las demás líneas se leyeron.',
  'finding.registry.waits-for-answer':
    'Caso {case}: la entrada del producto «{device}» cambió y espera a que el registro de calidad responda sobre la versión anterior.',
  'remedy.registry.waits-for-answer':
    'casetally registry reconcile, cuando llegue la respuesta; después, envíe de nuevo.',
  'finding.registry.not-mended':
    'Caso {case}: el registro de calidad rechazó la entrada del producto «{device}» ({code}), y su registro del caso no ha cambiado desde entonces.',
  'remedy.registry.not-mended':
    'Corrija lo que nombra el registro de calidad; o, si este se equivocó, casetally registry resend --refused.',
} as const satisfies Partial<Record<MessageKey, string>>;
