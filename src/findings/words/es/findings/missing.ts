import type { MessageKey } from '../../../message.js';

/** Lo que no se encuentra. */
export const missingFindings = {
  'remedy.tally.missing':
    'Siga la norma local sobre lo que no se encuentra; acepte esta línea cuando el paciente y el equipo sepan qué se hizo.',
  'finding.tally.missing-accounted': '{what} figura en «missing», y los eventos o «left» dicen dónde está.',
  'remedy.tally.missing-accounted':
    'Quite la línea de «missing», o quite la retirada o la línea de «left» que no sea cierta.',
} as const satisfies Partial<Record<MessageKey, string>>;
