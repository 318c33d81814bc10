import type { MessageKey } from '../../../message.js';

/** Deux endroits qui ne disent pas la même chose. */
export const agreementFindings = {
  'remedy.clinical.side-differs': 'Vérifiez les images, puis corrigez l’endroit qui est faux.',
  'remedy.clinical.side-missing': 'Ajoutez le côté, ou la cible qui manque.',
  'remedy.clinical.contrast-differs': 'Corrigez le total ou les événements.',
  'remedy.clinical.contrast-route-differs': 'Corrigez la voie, ou ajoutez l’abord qui manque.',
  'finding.clinical.retained-without-complication':
    '{what} reste dans le corps sans intention, et aucune complication n’est inscrite.',
  'remedy.clinical.retained-without-complication': 'Inscrivez-le dans complications, avec ce qui a été fait.',
  'finding.clinical.own-case':
    'Cette intervention elle-même ({case}) est nommée là où il faut une intervention antérieure.',
  'remedy.clinical.own-case': 'Écrivez le numéro de l’intervention antérieure, ou retirez-le.',
  'finding.clinical.consent-refused':
    'Le consentement a été refusé ou retiré, et l’intervention a été réalisée.',
  'remedy.clinical.consent-refused':
    'Corrigez le statut du consentement (given, emergency, not possible), ou le statut de l’intervention.',
  'finding.clinical.not-done-with-events':
    'L’intervention est notée comme non réalisée, et « {what} » y est noté.',
  'remedy.clinical.not-done-with-events':
    'Écrivez « stopped early » dans case.status si l’intervention avait commencé ; sinon, supprimez ce qui n’a pas eu lieu.',
  'remedy.clinical.outcome-differs': 'Corrigez le résultat global, ou l’endroit indiqué.',
  'finding.clinical.death-differs':
    '{place} note un décès ({death}) ; ceci concerne un patient vivant : {told}.',
  'remedy.clinical.death-differs': 'Corrigez l’endroit qui est faux ; supprimez ce qui n’a plus lieu d’être.',
  'remedy.clinical.complication-unsaid':
    'Ajoutez-la dans complications, ou dites dans le texte qu’elle existait déjà.',
  'remedy.clinical.fluoroscopy-longer':
    'Vérifiez l’unité et la valeur du temps de scopie, et le début et la fin de l’intervention.',
  'remedy.clinical.radiation-unsaid': 'Ajoutez les valeurs de la console ou du rapport de dose.',
  'remedy.clinical.haemoglobin-fall':
    'Cherchez un saignement et notez-le comme complication, ou acceptez cet avertissement avec ce qui explique la baisse.',
  'remedy.clinical.measurement-differs': 'Corrigez la valeur qui est fausse.',
  'remedy.clinical.specimen-differs': 'Corrigez les prélèvements ou les événements.',
  'remedy.clinical.closure-differs':
    'Corrigez la manière dont il a été fermé, ou ajoutez le dispositif et ses événements.',
  'remedy.clinical.kind-differs':
    'Corrigez kind et title, ou ajoutez les dispositifs et les événements qui manquent.',
  'remedy.clinical.level-differs': 'Vérifiez les images, puis corrigez l’endroit qui est faux.',
  'remedy.clinical.sex-differs':
    'Vérifiez qu’il s’agit du bon patient ; corrigez le sexe ou le texte, ou acceptez cet avertissement avec un motif.',
  'remedy.clinical.age-differs':
    'Vérifiez qu’il s’agit du bon patient ; corrigez la date de naissance ou le texte.',
  'remedy.clinical.pregnancy-differs': 'Posez de nouveau la question, puis corrigez la réponse ou le texte.',
  'remedy.clinical.entered-twice': 'Supprimez l’un des deux, ou corrigez l’heure ou la quantité du second.',
  'remedy.clinical.aftercare-device-out':
    'Indiquez le dispositif qui reste, ou retirez le dispositif de cette tâche.',
  'remedy.tally.left-differs':
    'Examinez le patient, puis corrigez l’endroit qui est faux, ou ajoutez l’événement qui l’a changé.',
  'remedy.tally.not-deployed':
    'Ajoutez deploy, release ou detach après son introduction, avant la sortie de son cathéter de largage.',
  'remedy.tally.not-locked':
    'Verrouillez la boucle et ajoutez lock, ou dites dans son réglage (setting) qu’elle est restée déverrouillée.',
  'remedy.tally.not-filled': 'Remplissez le ballonnet et ajoutez inflate avec le volume.',
  'remedy.tally.flushed-before':
    'Corrigez l’heure du rinçage, ou ajoutez celui qui a suivi son introduction.',
  'remedy.tally.other-side': 'Corrigez over ou through.',
} as const satisfies Partial<Record<MessageKey, string>>;
