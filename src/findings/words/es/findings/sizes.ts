import type { MessageKey } from '../../../message.js';

/** Medidas que no encajan. */
export const sizeFindings = {
  'remedy.size.wire-too-big':
    'Corrija la medida equivocada o indique la guía que se usó; acepte el aviso si pasó de verdad.',
  'remedy.size.wire-undersized': 'Anote el catéter interior o la otra guía si los hubo, o acepte el aviso.',
  'remedy.size.wire-system':
    'Anote el cambio de guía, o el catéter interior que encaja en ella; acepte el aviso si fue tal como está escrito.',
  'remedy.size.device-too-big':
    'Corrija la medida equivocada o indique por dónde pasó; acepte el aviso si pasó de verdad.',
  'remedy.size.inner-short':
    'Corrija la longitud equivocada o indique por dónde pasó; acepte el aviso si salió de verdad.',
  'finding.size.tract-small':
    'A las {time} {device}, de {size}, va sobre {wire:def}; el dilatador más ancho anotado antes ({dilator}) tiene {dilated}.',
  'remedy.size.tract-small': 'Anote el dilatador más ancho si lo hubo, o corrija la medida equivocada.',
  'remedy.size.wire-too-short':
    'Use o anote una guía más larga o una extensión; acepte el aviso si la posición se mantuvo o se abandonó.',
  'finding.size.wire-perhaps-short':
    'A las {time} {device} {way} sobre {wire:def}. No consta cuánto quedaba dentro; según una estimación con longitudes habituales hacen falta {needed} para mantener la posición, y la guía tiene {length}.',
  'remedy.size.wire-perhaps-short':
    'Añada depth al evento que introdujo la guía; use o anote una guía más larga si es demasiado corta.',
  'remedy.size.sheath-trapped':
    'Anote el introductor pelable, o que ambos salieron juntos; acepte el aviso si el conector se puede quitar.',
  'remedy.size.wire-occupied':
    'Añada antes la retirada de lo que sigue en la guía ({other}), o indique que el otro pasa por dentro.',
  'remedy.size.over-pressure': 'Corrija la presión, o acepte el aviso con el motivo.',
  'remedy.size.deeper-than-long': 'Corrija la profundidad o la longitud.',
  'remedy.size.oversize': 'Corrija el tamaño o la medida, o acepte el aviso con el motivo.',
  'remedy.size.undersize': 'Corrija el tamaño o la medida, o acepte el aviso con el motivo.',
  'remedy.size.stent-short': 'Corrija una longitud, anote el segundo stent, o acepte el aviso con el motivo.',
  'remedy.size.balloon-short': 'Anote cada inflado, corrija una longitud, o acepte el aviso con el motivo.',
  'remedy.size.ureteric-short': 'Corrija la longitud o la medida, o acepte el aviso con el motivo.',
  'remedy.size.ureteric-long': 'Corrija la longitud o la medida, o acepte el aviso con el motivo.',
  'remedy.size.shaft-short': 'Corrija la longitud o la distancia, o indique el balón que llegó hasta allí.',
} as const satisfies Partial<Record<MessageKey, string>>;
