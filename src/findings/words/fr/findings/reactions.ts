import type { MessageKey } from '../../../message.js';

/** Réactions à ce qui a été donné. */
export const reactionFindings = {
  'remedy.clinical.reaction-without-complication':
    'Ajoutez la réaction dans « complications » avec son heure, sa gravité et son traitement ; ou retirez la marque s’il n’y en a pas eu.',
  'remedy.clinical.complication-without-reaction':
    'Indiquez « reaction » au médicament ou au produit de contraste qu’elle a suivi, ou nommez ce qui est suspecté dans « suspect » de la complication.',
} as const satisfies Partial<Record<MessageKey, string>>;
