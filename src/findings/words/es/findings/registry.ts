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
    'Ponga keyEndsInNewline: yes donde ya se hayan creado seudónimos con él; si no, guarde el archivo sin el salto de línea.',
  'finding.registry.no-device': 'El caso {case} no tiene ningún producto que un registro de calidad recoja.',
  'remedy.registry.no-device': 'No hay que hacer nada.',
} as const satisfies Partial<Record<MessageKey, string>>;
