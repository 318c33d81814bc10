import type { MessageKey } from '../../../message.js';

/** Reacciones a lo administrado. */
export const reactionFindings = {
  'remedy.clinical.reaction-without-complication':
    'Añada la reacción a «complications» con su hora, gravedad y tratamiento; o quite la marca si no la hubo.',
  'remedy.clinical.complication-without-reaction':
    'Ponga «reaction» en el fármaco o el contraste tras el que apareció, o indique lo que se sospecha en «suspect» de la complicación.',
} as const satisfies Partial<Record<MessageKey, string>>;
