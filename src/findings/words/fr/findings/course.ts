import type { MessageKey } from '../../../message.js';

/** Le déroulement, dit à deux endroits. */
export const courseFindings = {
  'remedy.clinical.status-differs':
    'Mettez case.status à « {status} » avec case.reason, ou corrigez le texte.',
  'remedy.clinical.plan-differs':
    'Corrigez l’endroit qui est faux, ou acceptez cet avertissement avec le motif du changement.',
  'remedy.clinical.prophylaxis-differs':
    'Corrigez le texte, ou ajoutez dans drugs ce qui a été donné, avec son heure.',
  'remedy.clinical.allergy-unsaid':
    'Ajoutez-la dans before.allergies, ou dites dans le texte qu’elle a été écartée.',
  'remedy.clinical.severity-differs': 'Corrigez la gravité, ou l’endroit indiqué.',
  'remedy.clinical.device-unlisted':
    'Ajoutez-le dans devices avec ses événements, ou dites dans le texte qu’il était déjà là, prévu ou non utilisé.',
  'remedy.clinical.complication-device':
    'Corrigez la complication, ou ajoutez le dispositif dans devices (avec carried s’il a été mis en place lors d’une intervention antérieure).',
  'remedy.clinical.drug-unsaid': 'Ajoutez-le dans drugs avec sa dose, ou corrigez le produit.',
} as const satisfies Partial<Record<MessageKey, string>>;
