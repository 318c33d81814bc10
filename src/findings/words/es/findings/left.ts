import type { MessageKey } from '../../../message.js';

/** El plan para lo que queda en el paciente. */
export const leftFindings = {
  'remedy.clinical.latest-differs': 'Corrija latest en left, o la fecha de esta tarea.',
  'remedy.clinical.setting-without-criteria':
    'Añada criteria a su tarea de aftercare: medida, valor, durante cuánto tiempo y qué sigue.',
  'remedy.clinical.contact-missing':
    'Añada advice.contact, o indique contact en la configuración del centro.',
} as const satisfies Partial<Record<MessageKey, string>>;
