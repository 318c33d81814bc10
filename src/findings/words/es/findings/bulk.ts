import type { MessageKey } from '../../../message.js';

/** Hallazgos sobre el tratamiento de muchos casos a la vez. */
export const bulkFindings = {
  'finding.bulk.unread': 'El archivo no se puede leer: {why}.',
  'remedy.bulk.unread': 'Haga que se pueda leer y repita la misma orden.',
  'finding.bulk.link': 'Es un enlace; los enlaces no se siguen, para que no se lea nada fuera de la carpeta.',
  'remedy.bulk.link': 'Ponga aquí el archivo mismo o indique la carpeta a la que lleva el enlace.',
  'finding.bulk.no-route': 'Ninguna ruta de la configuración del centro admite este caso.',
  'remedy.bulk.no-route': 'Añada una ruta o indique un destino con --to.',
  'finding.bulk.too-long': 'El tratamiento de este caso duró más de {seconds} s y se interrumpió.',
  'remedy.bulk.too-long':
    'Busque lo que excede con mucho lo que tiene un caso; o dele más tiempo con --seconds.',
  'finding.bulk.too-much-memory':
    'El tratamiento de este caso ocupó más de {megabytes} MB de memoria y se interrumpió.',
  'remedy.bulk.too-much-memory': 'Busque lo que excede con mucho lo que tiene un caso.',
  'finding.bulk.died': 'Un fallo de Casetally mismo interrumpió el tratamiento de este caso.',
  'remedy.bulk.died': 'Repita la misma orden: nada se guarda dos veces. Si el fallo vuelve, comuníquelo.',
  'finding.bulk.cut-off': 'La última línea no termina en salto de línea: el archivo puede estar cortado.',
  'remedy.bulk.cut-off': 'Haga que se escriba de nuevo si no está completo.',
} as const satisfies Partial<Record<MessageKey, string>>;
