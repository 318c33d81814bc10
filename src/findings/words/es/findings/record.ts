import type { MessageKey } from '../../../message.js';

/** La lectura del registro. */
export const recordFindings = {
  'finding.record.not-text': 'El fichero no es texto UTF-8: el byte {byte} no se puede leer.',
  'remedy.record.not-text': 'Guarde el fichero como UTF-8.',
  'finding.record.too-big': 'El fichero tiene {size} bytes; un registro de caso puede tener {limit}.',
  'remedy.record.too-big': 'Envíe un caso por fichero, y deje fuera las imágenes y los documentos.',
  'finding.record.too-deep': 'El fichero está anidado en más de {limit} niveles.',
  'remedy.record.too-deep': 'Ningún caso lo necesita: busque corchetes o llaves sin cerrar.',
  'finding.record.too-many': 'El fichero contiene más de {limit} valores.',
  'remedy.record.too-many': 'Envíe un caso por fichero.',
  'finding.record.too-many-entries': 'Hay {count} entradas; un caso puede tener como máximo {limit}.',
  'remedy.record.too-many-entries': 'Mire si se duplicaron líneas; envíe un caso por fichero.',
  'finding.record.too-long': 'El texto tiene {length} caracteres; el máximo es {limit}.',
  'remedy.record.too-long':
    'Mire si se pegó algo aquí por error; las imágenes y los documentos van junto al registro.',
  'finding.record.long-word': 'Hay una palabra o un número de más de {limit} caracteres.',
  'remedy.record.long-word': 'Mire si se pegó algo aquí por error; separe las palabras con espacios.',
  'finding.record.control-character':
    'El texto contiene el carácter {character}, que ninguna pantalla ni impresora muestra.',
  'remedy.record.control-character':
    'Quítelo; en una etiqueta escriba el separador de grupo como \\x1D entre comillas dobles.',
  'finding.record.not-yaml': 'Esto no es YAML ni JSON que se pueda leer: {why}',
  'remedy.record.not-yaml':
    'Corrija la línea que se indica; a menudo falta justo antes una comilla, un corchete o una sangría.',
  'finding.record.duplicate-key': 'La clave «{key}» está dos veces en el mismo lugar.',
  'remedy.record.duplicate-key': 'Deje una de las dos, o dé otro nombre a la segunda.',
  'finding.record.alias':
    '«{what}» es un ancla, un alias, una fusión o una marca de YAML; un registro de caso no los lleva.',
  'remedy.record.alias':
    'Escriba el valor donde se usa; ponga entre comillas el texto que empieza por & * o !.',
  'finding.record.forbidden-key': 'La clave «{key}» no se permite en ningún lugar.',
  'remedy.record.forbidden-key': 'Déle otro nombre.',
  'finding.record.not-a-case': 'El fichero contiene {what}, no un registro de caso.',
  'remedy.record.not-a-case':
    'Un registro de caso empieza por «casetally: 1» y lleva case, patient, team, indication y report.',
  'finding.record.empty-value': '«{key}» no tiene valor.',
  'remedy.record.empty-value': 'Quite la línea si no se anotó nada; escriba «none» si se buscó y no había.',
  'finding.record.unknown-key': '«{key}» no es un campo de este lugar.',
  'remedy.record.unknown-key': '{suggestion}',
  'finding.record.missing': 'Falta «{key}»; se espera {expected}.',
  'remedy.record.missing': 'Añada «{key}».',
  'finding.record.wrong-type': 'Se espera {expected}; hay {found}.',
  'remedy.record.wrong-type': 'Escriba {expected}.',
  'finding.record.not-one-of': '«{found}» no es ninguno de estos: {allowed}.',
  'remedy.record.not-one-of': '{suggestion}',
  'finding.record.bad-text': '«{found}» no es {expected}.',
  'remedy.record.bad-text': 'Escriba {expected}.',
  'finding.record.bad-quantity': '{why}.',
  'remedy.record.bad-quantity': 'Escriba un número con su unidad, por ejemplo {example}.',
  'finding.record.bad-time': '{why}.',
  'remedy.record.bad-time':
    'Escriba 09:04, 2024-03-14T09:04 o, con la diferencia horaria, 2024-03-14T09:04+01:00.',
  'finding.record.time-skipped': '{why}.',
  'remedy.record.time-skipped': 'Revise el reloj que se leyó: es probable que aún no se hubiera adelantado.',
  'finding.record.time-twice': '{why}.',
  'remedy.record.time-twice': 'Escriba la diferencia horaria tras la hora.',
  'finding.record.no-time-zone': '{why}.',
  'remedy.record.no-time-zone':
    'Añada timeZone a case, por ejemplo Europe/Lisbon, o indíquela en la configuración del centro.',
  'finding.record.no-date': '{why}.',
  'remedy.record.no-date': 'Añada date a case, YYYY-MM-DD.',
  'finding.record.bad-time-zone': '«{zone}» no es el nombre de una zona horaria.',
  'remedy.record.bad-time-zone': 'Escriba un nombre de IANA, por ejemplo Europe/Lisbon.',
  'finding.record.bad-date': '«{found}» no es un día del calendario.',
  'remedy.record.bad-date': 'Escriba YYYY-MM-DD.',
  'finding.record.time-next-day':
    '{times}: se lee como el día siguiente, {date}, por estar más de doce horas antes del inicio del caso ({started}).',
  'remedy.record.time-next-day': 'Escriba la fecha delante de la hora si se trata de otro día.',
  'finding.record.time-day-before':
    '{times}: se lee como el día anterior, {date}, por estar más de dieciocho horas después del inicio del caso ({started}).',
  'remedy.record.time-day-before': 'Escriba la fecha delante de la hora si se trata de otro día.',
  'finding.record.start-missing':
    'Las horas sin fecha van de {first} a {last}, y el caso no tiene inicio: todas se leen como del {date}, también las que puedan ser de la noche anterior o posterior.',
  'remedy.record.start-missing': 'Añada case.started, o escriba la fecha delante de las horas.',
  'finding.record.unknown-reference': 'No hay {what} con la clave «{key}».',
  'remedy.record.unknown-reference': '{suggestion}',
  'finding.record.duplicate-member': 'Dos entradas de {list} usan la clave «{key}».',
  'remedy.record.duplicate-member': 'Dé otra clave a una de ellas.',
  'finding.record.reason-missing': 'El estado del caso es «{status}» y no consta el motivo.',
  'remedy.record.reason-missing': 'Añada case.reason.',
  'finding.record.not-recorded': '{what}: no consta nada.',
  'remedy.record.not-recorded': 'Anótelo, o escriba «none» si no hubo.',
  'finding.record.checked-in-part':
    'Partes del registro no se pudieron leer; lo demás se comprobó sin ellas.',
  'remedy.record.checked-in-part': 'Corrija los errores y compruebe de nuevo: puede aparecer más.',
  'finding.record.unsigned': 'El estado del informe es «{status}» y no consta la hora de la firma.',
  'remedy.record.unsigned': 'Añada report.signedAt, o ponga report.status en preliminary.',
  'finding.record.change-missing': 'El estado del informe es «{status}» y no dice qué cambió.',
  'remedy.record.change-missing': 'Añada report.change con of, by, at y why.',
  'remedy.record.outside-case': 'Corrija la hora, o case.started y case.ended.',
  'remedy.record.order-of-times': 'Corrija la hora equivocada: esta, o {other}.',
  'finding.record.event-out-of-place':
    'El evento «{event}» tiene la hora {time} y está en el registro entre {from} y {to}. Lo que por eso lo contradice: {count}.',
  'remedy.record.event-out-of-place':
    'Corrija su hora a {from} o una posterior hasta {to}; si es correcta, corrija lo que depende de ella.',
  'finding.record.in-future': '{what} ({time}) está en el futuro.{more}',
  'remedy.record.in-future': 'Corrija la fecha o la hora, o el reloj de este ordenador.',
  'finding.record.source-of-nothing': 'sources dice de dónde viene {place}, pero en ese lugar no hay nada.',
  'remedy.record.source-of-nothing': 'Quite la línea de sources o corrija su ruta.',
} as const satisfies Partial<Record<MessageKey, string>>;
