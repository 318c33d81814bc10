import type { MessageKey } from '../../../message.js';

/** Imágenes. */
export const pictureFindings = {
  'finding.picture.not-read': 'La imagen {file} no se puede leer: {why}. El informe muestra solo su nombre.',
  'remedy.picture.not-read':
    'Ponga el fichero en su sitio en la carpeta del fichero del caso, o corrija su nombre.',
  'finding.picture.not-given': 'El caso llegó sin la imagen {file}. El informe muestra solo su nombre.',
  'remedy.picture.not-given': 'Prepare el caso donde la imagen esté junto a su fichero, o quite el nombre.',
  'finding.picture.outside':
    'La imagen {file} es un enlace que sale de la carpeta del fichero del caso, y no se leyó.',
  'remedy.picture.outside': 'Ponga una copia de la imagen en la carpeta.',
  'finding.picture.too-big': 'La imagen {file} tiene {found}; se leen imágenes de hasta {limit}.',
  'remedy.picture.too-big':
    'Exporte una copia más pequeña; el informe muestra como máximo {longest} píxeles en el lado más largo.',
  'finding.picture.wrong-type':
    'El fichero {file} no contiene una imagen JPEG ni PNG, diga lo que diga su nombre.',
  'remedy.picture.wrong-type': 'Exporte la imagen como JPEG o PNG.',
  'finding.picture.damaged': 'La imagen {file} no se puede descodificar: {why}.',
  'remedy.picture.damaged':
    'Expórtela de nuevo como JPEG básico (baseline) de 8 bits, o como PNG sin entrelazado ni animación.',
  'finding.picture.too-many': 'La imagen {file} es la número {number}; un informe muestra {limit}.',
  'remedy.picture.too-many':
    'Indique las imágenes que el lector necesita, y deje las demás en el archivo de imágenes.',
} as const satisfies Partial<Record<MessageKey, string>>;
