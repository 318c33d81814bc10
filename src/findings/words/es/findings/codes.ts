import type { MessageKey } from '../../../message.js';

/** Códigos. */
export const codesFindings = {
  'finding.codes.not-text': 'La lista de códigos no es texto UTF-8: {problem}.',
  'remedy.codes.not-text': 'Guárdela desde la hoja de cálculo como «CSV UTF-8».',
  'finding.codes.column-missing':
    'La lista de códigos no tiene la columna {column}; su primera línea tiene {found}.',
  'remedy.codes.column-missing':
    'Nombre las columnas en la primera línea: what, text, system, code, display.',
  'finding.codes.unreadable': 'La línea {line} de la lista de códigos no se puede leer: {problem}.',
  'remedy.codes.unreadable': 'Corrija esa línea; las comillas de un texto se deben cerrar.',
  'finding.codes.value': 'Línea {line} de la lista de códigos: {column} es {found}; se espera {expected}.',
  'remedy.codes.value': 'Corrija esa línea.',
  'finding.codes.rounded':
    'Línea {line} de la lista de códigos: una hoja de cálculo convirtió el código en el número {found}.',
  'remedy.codes.rounded':
    'Dé a la columna formato de texto y escriba el código de nuevo: sus últimas cifras se perdieron.',
  'finding.codes.check-digit':
    'Línea {line} de la lista de códigos: {code} no es un código de {system}: {problem}.',
  'remedy.codes.check-digit':
    'Compárelo con el original del que se copió; las hojas de cálculo convierten en ceros las cifras a partir de la decimosexta.',
  'finding.codes.twice':
    'La línea {line} de la lista de códigos da a «{text}» el código {code}; la línea {first} le da {other}.',
  'remedy.codes.twice':
    'Deje un solo código de un sistema de códigos para cada texto, o distinga los dos en la columna what.',
  'finding.codes.more': 'La lista de códigos tiene {count} fallos más.',
  'remedy.codes.more': 'Corrija primero los anteriores.',
  'finding.codes.not-known':
    'El servidor de terminología no conoce {code} de {system}, que el centro da a «{text}».',
  'remedy.codes.not-known': 'Corrija el código, o pregunte qué edición tiene el servidor.',
  'finding.codes.named-otherwise':
    'El servidor de terminología llama a {code} «{display}»; el centro lo da a «{text}» como «{found}».',
  'remedy.codes.named-otherwise': 'Mire si ambos significan lo mismo, y corrija el código o display.',
  'finding.codes.server-believes-all':
    'El servidor de terminología dice que {system} tiene un código {code}, lo que es imposible: sus respuestas sobre {system} no se usan.',
  'remedy.codes.server-believes-all': 'Pregunte a quienes lo gestionan si tiene ese sistema de códigos.',
  'finding.codes.server': 'El servidor de terminología no respondió a {operation} para {code}: {problem}.',
  'remedy.codes.server': 'Compruebe su dirección, y si ofrece esa operación.',
} as const satisfies Partial<Record<MessageKey, string>>;
