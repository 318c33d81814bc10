import type { MessageKey } from '../../../message.js';

/** Constats cliniques. Chacun est un rappel pour un professionnel habilité ; aucun n’est un ordre. */
export const clinicalFindings = {
  'remedy.clinical.dose-unit-slip': 'Relisez les deux valeurs et leurs unités sur la console.',
  'finding.clinical.dose-field-narrow':
    'Le produit dose-surface {product} et le kerma dans l’air {kerma} donnent un champ moyen de {area} cm², au-dessous de {limit} cm² : le faisceau était étroit, ou l’une des valeurs est fausse d’un facteur dix.',
  'remedy.clinical.dose-field-narrow':
    'Si le faisceau n’était pas étroit, relisez les deux valeurs et leurs unités sur la console.',
  'remedy.clinical.dose-rate': 'Relisez le temps, la dose et leurs unités sur la console.',
  'remedy.clinical.dose-scan-length': 'Relisez les deux valeurs et leurs unités sur le scanner.',
  'finding.clinical.dose-notify': '{what} {value} a atteint le seuil de notification de {limit}{steps}.',
  'remedy.clinical.dose-notify': 'Prévenez l’opérateur et notez-le, selon les règles locales.',
  'remedy.clinical.dose-substantial':
    'Prévoyez un contrôle de la peau et dites au patient ce qu’il doit surveiller, selon les règles locales, et acceptez cet avertissement en l’indiquant.',
  'finding.clinical.dose-local':
    'Le produit dose-surface {value} dépasse le niveau de référence local de {limit} pour {kind}.',
  'remedy.clinical.dose-local': 'Notez pourquoi, si on le sait.',
  'remedy.clinical.skin-review-missing':
    'Ajoutez dans aftercare une tâche datée pour la peau, ou acceptez cet avertissement avec le motif.',
  'remedy.clinical.pregnant':
    'Notez la justification et l’estimation de la dose à l’utérus, selon les règles locales, et acceptez cet avertissement en les indiquant.',
  'remedy.clinical.pregnancy-not-asked': 'Ajoutez patient.pregnant (yes, no, not applicable ou unknown).',
  'remedy.clinical.egfr-contrast':
    'Prévoyez une créatinine de contrôle, selon les règles locales, et acceptez cet avertissement en l’indiquant.',
  'remedy.clinical.contrast-volume':
    'Vérifiez le volume ; s’il est juste, acceptez cet avertissement avec le motif.',
  'remedy.clinical.allergy-given':
    'Vérifiez les deux. Si le produit a été donné sciemment, acceptez cet avertissement avec le motif et ce qui a été fait pour éviter un dommage.',
  'remedy.clinical.lab-missing': 'Renseignez-le, ou acceptez cet avertissement avec le motif.',
  'remedy.clinical.lab-old':
    'Renseignez une valeur plus récente s’il y en a une, ou acceptez cet avertissement avec le motif.',
  'remedy.clinical.lab-threshold':
    'Notez ce qui a été fait à ce sujet, ou acceptez cet avertissement avec le motif.',
  'remedy.clinical.hold-short':
    'Vérifiez l’heure ; si elle est juste, acceptez cet avertissement avec le motif.',
  'remedy.clinical.hold-unknown': 'Ajoutez lastDose.',
  'remedy.clinical.prophylaxis-late':
    'Vérifiez les heures ; si elles sont justes, acceptez cet avertissement avec le motif.',
  'remedy.clinical.prophylaxis-early':
    'Vérifiez les heures ; ajoutez l’autre dose si elle a été donnée, ou acceptez cet avertissement avec le motif.',
  'remedy.clinical.local-anaesthetic':
    'Vérifiez la dose, la concentration et le poids ; surveillez le patient selon les règles locales, et acceptez cet avertissement avec ce qui a été fait.',
  'remedy.clinical.fasting':
    'Vérifiez l’heure ; si elle est juste, acceptez cet avertissement avec le motif.',
  'remedy.clinical.grade-differs': 'Vérifiez le grade, ou le traitement, le séjour et les séquelles notés.',
  'remedy.clinical.grade-missing': 'Ajoutez grade avec scale et grade.',
  'remedy.clinical.success-differs': 'Vérifiez ce qui est noté pour cette cible.',
  'finding.clinical.narrowing': 'La sténose de {value} sur « {target} » est hors de 0 à 100 %.',
  'remedy.clinical.narrowing': 'Écrivez la sténose en pourcentage du diamètre sain.',
  'finding.clinical.left-without-aftercare':
    '« {device} » reste dans le corps du patient et rien ne dit ce qu’il en adviendra.',
  'remedy.clinical.left-without-aftercare':
    'Ajoutez une tâche pour lui dans aftercare, ou until / latest dans left.',
  'finding.clinical.due-order': '« {what} » : {earlier} est après {later}.',
  'remedy.clinical.due-order': 'Mettez dans l’ordre earliest, due et latest.',
  'finding.clinical.due-before-case': '« {what} » est prévu pour {date}, avant la fin de l’intervention.',
  'remedy.clinical.due-before-case': 'Corrigez la date.',
  'remedy.clinical.due-uncountable':
    'Écrivez des heures, ou des jours, semaines, mois ou années entiers, ou une date ; les heures se comptent à partir de la fin de l’intervention (case.ended).',
  'finding.clinical.dose-negative': 'Une dose ou un temps de {value} est inférieur à zéro.',
  'remedy.clinical.dose-negative': 'Relisez la valeur sur la console.',
  'finding.clinical.pregnancy-unknown':
    'Des rayonnements ont été utilisés et on ne savait pas si la patiente était enceinte.',
  'remedy.clinical.pregnancy-unknown': 'Notez la justification, selon les règles locales.',
  'finding.clinical.egfr-not-assessed':
    'Un produit de contraste a été injecté dans les vaisseaux et la fonction rénale n’a pas été évaluée : {why}.',
  'remedy.clinical.egfr-not-assessed':
    'Ajoutez la créatinine d’avant l’intervention avec son heure, la date de naissance et le sexe, s’ils sont connus.',
  'remedy.clinical.kidney-injury':
    'Vérifiez les valeurs et leurs heures ; prévenez ceux qui suivent le patient, et acceptez cet avertissement en indiquant qui a été prévenu.',
  'finding.clinical.lab-undecided':
    '{lab} {value} n’a pas été comparé au seuil de {limit} pour une intervention à risque {risk} : ce n’est qu’une borne, ou l’unité est inutilisable.',
  'remedy.clinical.lab-undecided': 'Écrivez la valeur mesurée, s’il y en a une.',
  'remedy.clinical.prophylaxis-redose':
    'Vérifiez les heures ; ajoutez la dose suivante si elle a été donnée.',
  'finding.clinical.reversal-given':
    '« {drug} » {dose} a été donné à {time} pour antagoniser un autre médicament.',
  'remedy.clinical.reversal-given': 'Surveillez le retour de son effet, selon les règles locales.',
  'finding.clinical.fasting-not-recorded':
    '{what} avant la sédation : non évalué, l’heure de la dernière prise n’est pas notée.',
  'remedy.clinical.fasting-not-recorded': 'Ajoutez-la dans before.fasting, si elle est connue.',
  'remedy.clinical.narrowing-differs': 'Vérifiez la sténose, la lumière et le diamètre sain.',
  'remedy.clinical.session-without-earlier':
    'Ajoutez before.earlierAttempts, et dans devices ce que la séance antérieure a laissé en place (carried).',
  'remedy.clinical.criterion-value': 'Ajoutez ou retirez la valeur de cette condition.',
  'remedy.clinical.capped-without-criteria':
    'Ajoutez criteria à sa tâche dans aftercare : mesure, valeur, durée et ce qui s’ensuit.',
  'remedy.clinical.later-than-policy':
    'Vérifiez la date ; si elle est voulue, acceptez cet avertissement avec le motif.',
} as const satisfies Partial<Record<MessageKey, string>>;
