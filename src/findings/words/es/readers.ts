import type { readers as en } from '../en/readers.js';

/** Palabras de los informes breves, cada uno para un lector. */
export const readers: Record<keyof typeof en, string> = {
  'referrer.done': 'Qué se hizo',
  'referrer.inside': 'Qué hay dentro ahora',
  'referrer.you': 'Qué debe hacer usted y cuándo',
  'referrer.youNone': 'No consta nada que deba hacer usted.',
  'referrer.others': 'Qué harán otros',
  'referrer.call': 'A quién llamar',
  'referrer.know': 'También importa',
  'referrer.unsure': 'Llame al servicio que hizo el procedimiento.',
  'ward.done': 'Qué se hizo',
  'ward.inside': 'Drenajes, vías y dispositivos: cómo están ajustados',
  'ward.you': 'Qué hace la planta y cuándo',
  'ward.youNone': 'No consta nada que deba hacer la planta.',
  'ward.others': 'Qué harán otros',
  'ward.call': 'Cuándo llamar y a quién',
  'ward.know': 'Estado y riesgos',
  'ward.drugs': 'Fármacos administrados en el procedimiento',
};
