import type { MessageKey } from '../../../message.js';

/** Mots du métier : types d’intervention, familles de médicaments. */
export const tradeFindings = {
  'finding.clinical.case-kind-unknown':
    '« {kind} » n’est pas un type d’intervention connu ici : le risque hémorragique n’est pas classé, un registre reçoit « other », et aucun code n’est donné.',
  'remedy.clinical.case-kind-unknown': '{suggestion}',
  'finding.clinical.case-kind-read': 'Le type d’intervention « {kind} » est lu comme « {row} ».',
  'remedy.clinical.case-kind-read':
    'Écrivez le type tel qu’il figure dans le tableau si ce n’est pas ce qui a été fait.',
  'finding.clinical.bleeding-class-unknown':
    'Le risque hémorragique de « {kind} » n’a pas été classé : {why}. L’INR, les plaquettes et le fibrinogène n’ont pas été comparés à des seuils, et les dernières prises seulement aux délais d’arrêt du risque faible.',
  'remedy.clinical.bleeding-class-unknown':
    'Dans la configuration de l’établissement, sous clinical.bleedingRisk, écrivez « {kind}: low » ou « {kind}: high », selon le jugement de l’établissement.',
  'remedy.clinical.allergy-cross':
    'Vérifiez les deux. Si le produit a été donné sciemment, acceptez cet avertissement avec le motif et ce qui a été fait pour éviter un dommage.',
  'remedy.clinical.allergy-device':
    'Vérifiez les deux. Si le dispositif a été utilisé sciemment, acceptez cet avertissement avec le motif.',
} as const satisfies Partial<Record<MessageKey, string>>;
