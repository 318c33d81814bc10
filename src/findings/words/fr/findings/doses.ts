import type { MessageKey } from '../../../message.js';

/** Valeurs impossibles, doses, médicaments qui ne conviennent pas au patient. */
export const doseFindings = {
  'remedy.clinical.value-unlikely': 'Relisez la valeur et son unité à la source. Rien n’en est calculé.',
  'remedy.clinical.drug-dose-unlikely':
    'Relisez la dose, l’unité et la concentration ; si elles sont justes, acceptez cet avertissement avec le motif.',
  'remedy.clinical.drug-dose-by-weight':
    'Relisez la dose, l’unité et le poids ; s’ils sont justes, acceptez cet avertissement avec le motif.',
  'remedy.clinical.drug-dose-repeated':
    'Supprimez la dose saisie deux fois, ou corrigez son heure ; si les deux ont été données, acceptez cet avertissement avec le motif.',
  'remedy.clinical.route-unlikely':
    'Vérifiez le médicament et la voie ; s’ils sont justes, acceptez cet avertissement avec le motif.',
  'remedy.clinical.strength-missing':
    'Ajoutez strength, par exemple 1 % ou 10 mg/mL, ou écrivez la dose en masse ou en UI.',
  'remedy.clinical.weight-missing': 'Ajoutez patient.weight.',
  'remedy.clinical.heparin-after-hit':
    'Vérifiez les deux. Utilisez un autre anticoagulant, rinçage ou verrou ; si elle a été donnée sciemment, acceptez cet avertissement avec le motif.',
  'remedy.clinical.drug-condition':
    'Vérifiez le médicament et la maladie ; s’il a été donné en connaissance de cause, acceptez l’avertissement avec la raison.',
  'remedy.clinical.anticoagulant-differs':
    'Écrivez la même chose partout : arrêter, continuer, ou le jour de la reprise.',
  'remedy.clinical.anticoagulant-unsaid':
    'Ajoutez-le dans before.anticoagulants avec sa dernière prise, ou dites dans le texte qu’il a été arrêté.',
  'remedy.clinical.sedation-differs':
    'Vérifiez sedation (kind, by, start, end) et les médicaments donnés pour elle.',
} as const satisfies Partial<Record<MessageKey, string>>;
