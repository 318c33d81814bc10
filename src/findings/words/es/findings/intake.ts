import type { MessageKey } from '../../../message.js';

/** Valores que unas fuentes dan a un registro. */
export const intakeFindings = {
  'finding.intake.disagrees': '{place} no coincide: {sides}. Se dejó como está.',
  'remedy.intake.disagrees':
    'Compruebe cuál es correcto y escríbalo; lo tecleado se queda hasta que usted lo cambie.',
  'finding.intake.other-patient':
    '{source} es de otro paciente o caso: {what} es {theirs} allí y {ours} en {against}. No se tomó nada de ahí.',
  'remedy.intake.other-patient':
    'Compruebe de quién es. Si el registro está mal, corríjalo y vuelva a incorporar la fuente.',
  'finding.intake.patient-unconfirmed':
    'Nada de lo que {source} dice del paciente o del caso se puede comparar con el registro: {theirs}.',
  'remedy.intake.patient-unconfirmed': 'Compárelo usted y añada al registro lo que falta.',
  'finding.intake.too-old':
    '{place} de {source} es de {at}, más de {limit} antes del caso. Se propuso y no se rellenó.',
  'remedy.intake.too-old':
    'Tómelo si sigue siendo válido, o mida de nuevo. El límite es intake.olderThan del centro, una norma local.',
  'finding.intake.placed-later':
    '{device}, de {source}, se colocó el {date}, después del caso ({day}). No se tomó.',
  'remedy.intake.placed-later': 'Compruebe si es el caso anterior correcto y si case.date es correcto.',
  'finding.intake.placed-here': '{device}, de {source}, se colocó en este mismo caso. No se tomó.',
  'remedy.intake.placed-here': 'Aporte el caso anterior a este, o corrija case.id.',
  'finding.intake.renewed': '{place} se renovó desde {source}: {was} pasó a ser {is}.',
  'remedy.intake.renewed':
    'Si alguien había corregido el valor anterior, escríbalo de nuevo y quite su línea de sources.',
  'finding.intake.entry-there': '{place} ya está en el registro. No se le añadió {fields} de {source}.',
  'remedy.intake.entry-there': 'Añádalo a mano si es el mismo; si no, dé otra clave al otro.',
  'finding.intake.key-twice':
    '{place} está en dos juegos: {sources}. Solo una entrada puede tener esa clave, así que el registro no dice que ambos estén en la mesa.',
  'remedy.intake.key-twice':
    'Póngale otra clave en uno de los juegos, o escriba el segundo en el registro con su propia clave.',
  'finding.intake.not-a-field':
    '{source} da un valor para {place}, que no es un campo de un registro donde quepa un solo valor.',
  'remedy.intake.not-a-field': 'Corrija la fuente, o escriba el valor a mano en el campo correcto.',
  'finding.intake.not-a-value':
    'Lo que {source} da para {place} no puede estar en un registro: está vacío, es demasiado largo o tiene caracteres invisibles.',
  'remedy.intake.not-a-value': 'Corrija la fuente, o escriba el valor a mano.',
  'finding.intake.not-written':
    'Los valores no se pudieron poner en este archivo de modo que se lea como se quería. Se dejó como estaba.',
  'remedy.intake.not-written':
    'Escríbalos a mano, o dé al archivo una forma más sencilla (sin anclas ni claves repetidas) y pruebe de nuevo.',
  'finding.intake.kit-other-kind': '{source} es para {kinds}; el caso es {kind}.',
  'remedy.intake.kit-other-kind': 'Compruebe que es el juego correcto.',
  'finding.intake.kit-device-open': '{device} llegó a la mesa con {source}, y nada dice qué fue de ello.',
  'remedy.intake.kit-device-open':
    'Añada sus eventos, o escriba en devices.{key} use: unopened, opened unused o failed; use: used para lo que nunca entra.',
} as const satisfies Partial<Record<MessageKey, string>>;
