import type { drafts as en } from '../en/drafts.js';

/** Lo que impide un cambio de un borrador. */
export const drafts: Record<keyof typeof en, string> = {
  'drafts.noEdit': 'no es un cambio',
  'drafts.noPath': 'la ruta no se puede leer',
  'drafts.noPlace': 'la lista no tiene ese lugar',
  'drafts.noList': 'en esta ruta no hay ninguna lista',
  'drafts.notThere': 'en esta ruta no hay nada',
  'drafts.holdsText': 'lo que lo contiene es texto, no campos',
  'drafts.tooDeep': 'la ruta es demasiado profunda',
  'drafts.forbidden': 'la ruta tiene un nombre que no está permitido',
};
