import type { ReportedKey } from '../reported.js';

/** Avertissements qu’un dossier peut accepter. */
export const warnings: Record<ReportedKey, string> = {
  'finding.clinical.side-differs': '« {text} » indique le côté : {side} ; {other} indique : {otherSide}.',
  'finding.clinical.side-missing': '« {what} » : le côté indiqué est {side}, alors que {other} est attendu.',
  'finding.clinical.contrast-differs':
    'Le produit de contraste totalise {total} ; les événements en injectent {events} ({place}).',
  'finding.clinical.contrast-route-differs':
    'Le produit de contraste est noté par voie {route} ; ce qui a été abordé est « {entered} ».',
  'finding.clinical.outcome-differs': 'Le résultat global est {overall} ; {place} dit « {other} ».',
  'finding.clinical.complication-unsaid':
    '« {text} » évoque une complication, et aucune complication n’est notée.',
  'finding.clinical.fluoroscopy-longer':
    'La scopie de {time} est plus longue que l’intervention, qui a duré {lasted}.',
  'finding.clinical.radiation-unsaid':
    'Des rayons X ont été utilisés ({place}), et aucune irradiation n’est notée.',
  'finding.clinical.haemoglobin-fall':
    'L’hémoglobine a baissé de {from} à {to}, soit {fall} g/L, et aucun saignement n’est noté.',
  'finding.clinical.measurement-differs': '{what} est de {value} ici et de {other} dans {place}.',
  'finding.clinical.specimen-differs':
    'Les prélèvements disent {specimens} ; les événements disent {events} ({place}).',
  'finding.clinical.closure-differs':
    'L’abord « {site} » est noté comme fermé par « {closure} », ce qu’aucun dispositif ni événement ne confirme.',
  'finding.clinical.kind-differs': '« {text} » ne correspond pas au reste du dossier : {other}.',
  'finding.clinical.level-differs': '« {text} » nomme un autre niveau ou segment que « {other} » ({place}).',
  'finding.clinical.sex-differs': '« {text} » ne correspond pas au sexe noté, {sex}.',
  'finding.clinical.age-differs':
    '« {text} » ne correspond pas à la date de naissance {birth}, qui donne {age} ans le jour de l’intervention.',
  'finding.clinical.pregnancy-differs':
    'La question de la grossesse a pour réponse « {answer} », ce que « {text} » contredit.',
  'finding.clinical.entered-twice':
    '{what} est saisi deux fois avec les mêmes valeurs et la même heure, la première fois à {first}.',
  'finding.clinical.aftercare-device-out':
    '« {task} » concerne {device:def}, qui n’est plus en place après l’intervention.',
  'finding.tally.left-differs': '« left » dit {left} ; l’événement à {time} dit {event}.',
  'finding.tally.not-deployed': '{device} reste en place et aucun événement ne le libère dans le corps.',
  'finding.tally.not-locked': '{device} reste en place et aucun événement n’a verrouillé sa boucle.',
  'finding.tally.other-side':
    'À {time}, {device} passe sur {wire:def} et par {sheath:def} ; le guide passe par {other:def}.',
  'finding.tally.not-filled':
    '{device} est tenu par son ballonnet et reste en place, mais aucun événement ne remplit le ballonnet.',
  'finding.tally.flushed-before':
    '{device} reste en place, et son seul rinçage, à {time}, précède son introduction.',
  'finding.clinical.status-differs': 'L’intervention est terminée selon son statut ; {place} dit « {text} ».',
  'finding.clinical.plan-differs': '« {text} » ne va pas avec « {other} » ({place}).',
  'finding.clinical.prophylaxis-differs':
    '« {text} » ne correspond pas aux antibiotiques parmi les médicaments ({drugs}).',
  'finding.clinical.allergy-unsaid': '« {text} » évoque une allergie qui manque dans before.allergies.',
  'finding.clinical.severity-differs':
    '« {what} » est qualifié de léger ; {place} indique « {consequence} ».',
  'finding.clinical.device-unlisted':
    '« {text} » nomme un dispositif ({device}) que la liste des dispositifs n’a pas.',
  'finding.clinical.complication-device':
    'La complication « {text} » concerne un dispositif ({device}) que l’intervention n’a pas utilisé.',
  'finding.clinical.drug-unsaid':
    '« {agent} » a été injecté par un événement, et les médicaments n’ont pas {drug}.',
  'finding.clinical.latest-differs':
    '« {what} » est prévu pour {planned}, mais {device:def} ne peut rester que jusqu’à {latest}.',
  'finding.clinical.setting-without-criteria':
    '{device} est laissé avec le réglage « {set} », et rien de mesurable ne dit quand cela change.',
  'finding.clinical.contact-missing':
    'Quelque chose reste dans le corps ou est à faire, et personne à appeler n’est nommé.',
  'finding.tally.missing': '{what} : introuvable. Recherche : {searched}. Imagerie : {imaging}.',
  'finding.size.wire-too-big': 'À {time}, {wire} mesure {wireSize} ; {device} accepte {lumen}.',
  'finding.size.wire-undersized':
    'À {time}, {device}, prévu pour {lumen}, passe sur {wire:def} de {wireSize} : le soutien est faible.',
  'finding.size.wire-system':
    'À {time}, {device}, prévu pour des guides de {lumen}, passe sur {wire:def} de {wireSize} : autre système de guides.',
  'finding.size.device-too-big': 'À {time}, {device} mesure {size} ; {host} accepte {lumen}.',
  'finding.size.inner-short':
    'À {time}, {device}, de {length}, passe à travers {host:def}, de {hostLength} : son extrémité ne peut pas en sortir.',
  'finding.size.wire-too-short':
    'À {time}, {device} {way} sur {wire:def} : {sum} demande {needed}, le guide mesure {length}, {short} de trop peu pour rester en place.',
  'finding.size.sheath-trapped':
    'À {time}, {sheath} sort alors que {device:def} reste dedans ; elle n’est pas pelable et ne peut pas passer l’embase.',
  'finding.size.wire-occupied':
    'À {time}, {device} passe sur {wire:def} alors que {other:def} s’y trouve encore.',
  'finding.size.over-pressure':
    '{device} : gonflé à {pressure} à {time} ; la pression de rupture nominale est de {rated}.',
  'finding.size.deeper-than-long':
    'À {time}, {device} est noté à {depth} dans le corps ; sa longueur est de {length}.',
  'finding.size.oversize':
    '{device} s’est ouvert à {open} dans {target}, qui mesure {diameter} à côté : {percent} de ce diamètre.',
  'finding.size.undersize':
    '{device} s’est ouvert à {open} dans {target}, qui mesure {diameter} à côté : {percent} de ce diamètre.',
  'finding.size.stent-short':
    'Avec {device:def}, {covered} de stent se trouvent dans {target}, dont la lésion mesure {length} : elle n’est pas couverte.',
  'finding.size.balloon-short':
    'Avec {device:def}, {covered} de ballonnet ont été gonflés dans {target}, dont la lésion mesure {length}.',
  'finding.size.ureteric-short': '{device} mesure {length} ; l’uretère mesurait {measured}.',
  'finding.size.ureteric-long':
    '{device} mesure {length} ; l’uretère mesurait {measured}, plus de 4 cm de moins.',
  'finding.size.shaft-short':
    'Le corps {device:de} mesure {shaft} ; la distance de l’abord à {target} est de {way}, {short} de plus.',
  'finding.device.kind-unknown':
    '« {kind} » ({device}) n’est pas un type de dispositif connu ici, et aucune famille n’est indiquée.',
  'finding.acknowledged.error':
    'Le dossier accepte « {code} »{about}, qui est une erreur : seuls les avertissements peuvent être acceptés.',
  'finding.tally.removed-inflated': '{device} sort à {time} et son dégonflage n’est pas noté.',
  'finding.tally.removed-locked':
    '{device} sort à {time} et sa boucle était verrouillée ; le déverrouillage n’est pas noté.',
  'finding.tally.thread-undeclared':
    '{device} : {done} à {time}, et aucun fil de rétention n’est déclaré parmi ses parties ; aucun n’est donc suivi.',
  'finding.tally.damaged':
    '{device} est sorti endommagé à {time} ; le dossier ne dit pas qu’il était complet.',
  'finding.tally.left-count-missing':
    '{what} : {number} restent selon les événements, et la ligne sous « left » ne donne pas de nombre.',
  'finding.tally.no-condition':
    '{what} reste un certain temps, et rien ne dit quand ni à quelle condition cela sort.',
  'finding.tally.retained': '{what} reste dans le corps sans intention.',
  'finding.tally.carried-case':
    '{device} a été mis en place lors d’une intervention antérieure, et le dossier ne dit pas laquelle.',
  'finding.clinical.dose-unit-slip':
    'Le produit dose-surface {product} et le kerma dans l’air {kerma} ne vont pas ensemble : ils donnent un champ moyen de {area} cm², hors de {least} à {most} cm². {slip}',
  'finding.clinical.dose-rate': '{what} {value} en {time} de scopie donne {rate}, hors de {range}.',
  'finding.clinical.dose-scan-length':
    'Le produit dose-longueur {product} et l’indice de dose {index} donnent une longueur explorée de {length} cm, hors de {least} à {most} cm. {slip}',
  'finding.clinical.dose-substantial': '{what} {value} a atteint le seuil de dose importante de {limit}.',
  'finding.clinical.skin-review-missing':
    'Un seuil de dose importante a été atteint et rien dans les suites n’examine la peau ; un contrôle est proposé.',
  'finding.clinical.pregnant': 'Des rayonnements ont été utilisés et la patiente est notée comme enceinte.',
  'finding.clinical.pregnancy-not-asked':
    'Des rayonnements ont été utilisés et aucune réponse à la question de la grossesse n’est notée.',
  'finding.clinical.egfr-contrast':
    'Un produit de contraste intravasculaire a été donné avec un débit de filtration estimé de {egfr} mL/min/1,73 m², au-dessous de {limit}.',
  'finding.clinical.contrast-volume':
    '{volume} mL de produit de contraste intravasculaire dépassent la limite de {limit} mL ({rule}).',
  'finding.clinical.allergy-given': '« {given} » a été donné et une allergie à « {allergy} » est notée.',
  'finding.clinical.lab-missing': '{lab} avant cette intervention à risque {risk} : non renseigné.',
  'finding.clinical.lab-old': '{lab} date de {days} jours ; la limite est de {limit} jours.',
  'finding.clinical.lab-threshold':
    '{lab} {value} dépasse le seuil de {limit} pour une intervention à risque {risk}.',
  'finding.clinical.hold-short':
    'La dernière prise de « {drug} » précède l’abord de {hours} h ; un arrêt de {limit} h est demandé.',
  'finding.clinical.hold-unknown': 'La dernière prise de « {drug} » n’est pas renseignée.',
  'finding.clinical.prophylaxis-late':
    '« {drug} » en prophylaxie a été donné pour la première fois à {time}, après l’abord à {access}.',
  'finding.clinical.prophylaxis-early':
    '« {drug} » en prophylaxie a été donné {minutes} min avant l’abord ; la limite est de {limit} min.',
  'finding.clinical.local-anaesthetic': '{what}',
  'finding.clinical.fasting':
    '{what} : dernière prise {hours} h avant la sédation ; la limite est de {limit} h.',
  'finding.clinical.grade-differs':
    '« {what} » est gradé {written} ({scale}), et ses conséquences notées donnent {computed}.',
  'finding.clinical.grade-missing': 'La complication « {what} » n’a pas de grade.',
  'finding.clinical.success-differs': 'La cible « {target} » est notée {written}, et {why}.',
  'finding.clinical.due-uncountable': '« {written} » ne peut pas être compté en un jour ou une heure.',
  'finding.clinical.kidney-injury':
    'La créatinine après l’intervention remplit les critères d’une insuffisance rénale aiguë, stade {stage}.',
  'finding.clinical.prophylaxis-redose':
    'Aucune autre dose de « {drug} » en prophylaxie n’est notée pendant {span} après {time} ; l’intervalle est de {limit} h.',
  'finding.clinical.narrowing-differs':
    'La sténose de « {target} » est notée {written} et les diamètres donnent {computed}%, un écart de plus de {limit} points.',
  'finding.clinical.session-without-earlier':
    'C’est la séance {session}, et le dossier ne renvoie à aucune tentative antérieure.',
  'finding.clinical.criterion-value':
    'La condition « {measure} {is} » {wanted} : telle quelle, personne ne peut agir.',
  'finding.clinical.capped-without-criteria':
    '« {device} » est laissé bouché ou clampé, et rien ne dit ce qui décide de son ouverture ou de son retrait.',
  'finding.clinical.later-than-policy':
    '« {what} » est prévu pour {planned} ; la règle de l’établissement le permet jusqu’à {allowed}.',
  'finding.clinical.allergy-cross':
    '« {given} » a été donné et une allergie à « {allergy} » est notée ; une réaction croisée est {likelihood}.',
  'finding.clinical.allergy-device': '« {device} » : {substance}, et une allergie à « {allergy} » est notée.',
  'finding.record.order-of-times': '{later} ({laterTime}) précède {earlier} ({earlierTime}).{more}',
  'finding.record.outside-case': 'Cet événement, à {time}, est {side} de l’intervention ({limit}).',
  'finding.clinical.reaction-without-complication':
    'Une réaction à « {given} » est marquée, et aucune complication n’en parle.',
  'finding.clinical.complication-without-reaction':
    'La complication « {what} » est une réaction allergique, et rien de ce qui a été donné n’en est marqué.',
  'finding.clinical.value-unlikely': '{what}',
  'finding.clinical.drug-dose-unlikely':
    '« {drug} » {dose} n’est pas une dose usuelle : {range} est usuel en une fois.{would}',
  'finding.clinical.drug-dose-by-weight':
    '« {drug} » {dose} correspond à {ratio} du poids, au-dessus de {limit}.{would}',
  'finding.clinical.route-unlikely': '« {drug} » n’est pas donné d’habitude par cette voie : {route}.',
  'finding.clinical.strength-missing':
    'La dose de « {drug} » est un volume et aucune concentration n’est renseignée.',
  'finding.clinical.weight-missing': '{what}',
  'finding.clinical.heparin-after-hit':
    '« {what} » : héparine après une thrombopénie induite par l’héparine (« {known} »).',
  'finding.clinical.drug-condition':
    '« {drug} » a été donné à un patient avec « {condition} » ({place}), ce qui s’y oppose.',
  'finding.clinical.anticoagulant-differs': '« {text} » ne va pas avec « {other} » ({place}) pour {drug}.',
  'finding.clinical.anticoagulant-unsaid':
    '« {text} » nomme {drug}, et les médicaments qui influencent le saignement ne l’ont pas.',
  'finding.clinical.sedation-differs': '{what}',
  'finding.clinical.drug-dose-repeated': '« {drug} » totalise {sum} en {hours} h, au-dessus de {limit}.',
};
