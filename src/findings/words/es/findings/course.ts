import type { MessageKey } from '../../../message.js';

/** El curso del caso. */
export const courseFindings = {
  'remedy.clinical.status-differs': 'Ponga case.status en «{status}» con case.reason, o corrija el texto.',
  'remedy.clinical.plan-differs':
    'Corrija el lugar equivocado, o acepte este aviso con el motivo del cambio.',
  'remedy.clinical.prophylaxis-differs': 'Corrija el texto, o añada a drugs lo que se dio, con su hora.',
  'remedy.clinical.allergy-unsaid': 'Añádala en before.allergies, o diga en el texto que se descartó.',
  'remedy.clinical.severity-differs': 'Corrija la gravedad, o el lugar indicado.',
  'remedy.clinical.device-unlisted':
    'Añádalo a devices con sus eventos, o diga en el texto que ya estaba antes, que estaba previsto o que no se usó.',
  'remedy.clinical.complication-device':
    'Corrija la complicación, o añada el producto a devices (como carried, si se colocó en un caso anterior).',
  'remedy.clinical.drug-unsaid': 'Añádalo a drugs con su dosis, o corrija lo inyectado (agent).',
} as const satisfies Partial<Record<MessageKey, string>>;
