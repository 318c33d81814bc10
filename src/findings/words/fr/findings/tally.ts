import type { MessageKey } from '../../../message.js';

/** Le compte de ce qui entre et de ce qui sort. */
export const tallyFindings = {
  'remedy.device.kind-unknown': '{suggestion}',
  'finding.device.kind-read': '« {kind} » ({device}) est lu comme « {row} ».',
  'remedy.device.kind-read':
    'Écrivez le type tel qu’il figure dans le tableau, ou indiquez sa famille, si ce n’était pas cela.',
  'finding.acknowledged.nothing': 'Rien ici ne donne le constat « {code} »{about} que le dossier accepte.',
  'remedy.acknowledged.nothing':
    'Supprimez la ligne dans acknowledged, ou corrigez son code ou ce dont il s’agit.',
  'remedy.acknowledged.error': 'Corrigez ce que l’erreur indique.',
  'finding.tally.no-device': 'L’événement « {verb} », à {time}, ne dit pas de quel dispositif il s’agit.',
  'remedy.tally.no-device': 'Ajoutez device avec sa clé.',
  'finding.tally.not-inserted':
    '{device} : {done} à {time}, mais rien auparavant ne dit qu’il a été introduit.',
  'remedy.tally.not-inserted':
    'Ajoutez l’introduction, ou corrigez l’heure ou la clé ; indiquez carried s’il a été mis en place lors d’une intervention antérieure.',
  'finding.tally.already-out': '{device} : {done} à {time}, mais déjà sorti à {earlier}.',
  'remedy.tally.already-out':
    'Supprimez l’un des deux événements, corrigez une heure, ou ajoutez qu’il a été introduit de nouveau.',
  'finding.tally.inserted-twice':
    '{device} : introduit à {time}, mais déjà en place depuis {earlier}, et son retrait n’est pas noté.',
  'remedy.tally.inserted-twice':
    'Ajoutez le retrait entre les deux, ou donnez au second dispositif sa propre entrée.',
  'finding.tally.over-not-inside': '{device} : {done} sur {other:def} à {time}, mais {other:def} {where}.',
  'remedy.tally.over-not-inside': 'Indiquez sur quoi il est passé, ou corrigez l’ordre des événements.',
  'finding.tally.no-wire':
    'À {time}, {device} est échangé sur {other:def}, mais {other:def} {where} : aucun guide ne gardait la voie.',
  'remedy.tally.no-wire':
    'Indiquez le guide qui était en place, ajoutez son introduction, ou corrigez les heures.',
  'finding.tally.through-not-inside': '{device} : {done} par {other:def} à {time}, mais {other:def} {where}.',
  'remedy.tally.through-not-inside': 'Indiquez par quoi il est passé, ou corrigez l’ordre des événements.',
  'finding.tally.lumen-taken':
    'À {time}, {device} passe par {host:def} à côté {other:de} : ensemble {both}, la lumière accepte {lumen} ; un seul peut passer.',
  'remedy.tally.lumen-taken':
    'Ajoutez avant cela le retrait {other:de}, ou dites que l’un passe sur l’autre.',
  'finding.tally.exchange-unsaid':
    'À {time}, {device} est mis en place par échange, mais rien ne dit ce qui est sorti.',
  'remedy.tally.exchange-unsaid': 'Ajoutez replaces avec la clé du dispositif sorti, ou écrivez insert.',
  'finding.tally.not-inflated':
    '{device} : dégonflé à {time}, mais rien auparavant ne dit qu’il a été gonflé.',
  'remedy.tally.not-inflated': 'Ajoutez le gonflage, ou corrigez les heures.',
  'remedy.tally.removed-inflated': 'Ajoutez le dégonflage.',
  'remedy.tally.removed-locked': 'Ajoutez unlock, ou cut si le fil a été sectionné.',
  'remedy.tally.thread-undeclared':
    'Ajoutez le fil dans parts et dites ce qu’il en est advenu, ou acceptez l’avertissement s’il n’y en a pas.',
  'finding.tally.discarded-inside':
    '{device} : jeté sans être utilisé à {time}, mais {inside} en place et aucun ne reste à jeter.',
  'remedy.tally.discarded-inside': 'Ajoutez avant cela le retrait, ou corrigez le nombre.',
  'finding.tally.count-over':
    '{device} : {done} à {time}, nombre {number} ; {there} seulement sont possibles.',
  'remedy.tally.count-over': 'Corrigez count dans l’événement ou dans le dispositif.',
  'finding.tally.count-differs':
    '{device} : {number} comptés à {time} ; selon les événements, {inside} en place et {outside} hors du corps.',
  'remedy.tally.count-differs': 'Recomptez ; corrigez count dans les événements ou dans le dispositif.',
  'finding.tally.count-removed': '{device} : {number} sortis à {time}, mais {inside} seulement en place.',
  'remedy.tally.count-removed': 'Corrigez les nombres de ce qui est entré et de ce qui est sorti.',
  'finding.tally.count-unaccounted':
    '{device} : aucun événement ne dit ce qu’il est advenu de {number} sur {total}.',
  'remedy.tally.count-unaccounted':
    'Ajoutez count aux événements qui les ont introduits, ou un événement discard ou count pour le reste.',
  'finding.tally.no-events':
    '{device} : compté comme utilisé, et aucun événement ne dit qu’il a été introduit ou jeté.',
  'remedy.tally.no-events': 'Ajoutez les événements, ou mettez use à opened unused, unopened ou failed.',
  'finding.tally.unused-but-used': '{device} est noté « {use} », mais {where}.',
  'remedy.tally.unused-but-used': 'Corrigez use, ou la clé dans l’événement.',
  'finding.tally.unaccounted':
    '{device} : introduit à {time} ; aucun retrait n’est noté et « left » ne le nomme pas.',
  'remedy.tally.unaccounted':
    'Vérifiez s’il est sorti : ajoutez {removal}, ou inscrivez {key} dans « left » avec purpose temporary ou unintended, et until. « withdraw » veut dire reculer, pas retirer.',
  'finding.tally.part-unaccounted':
    '{part} : {why} ; rien ne dit qu’elle est sortie ou qu’elle a été laissée sciemment.',
  'remedy.tally.part-unaccounted':
    'Ajoutez un événement remove avec device {device} et part {key}, ou inscrivez la partie dans « left » avec purpose temporary ou unintended, et until.',
  'finding.tally.pieces':
    '{device} est en {pieces} morceaux depuis {time} ; devenir inconnu pour {missing} d’entre eux.',
  'remedy.tally.pieces':
    'Déclarez chaque morceau dans parts (kind fragment) et dites ce qu’il en est advenu, ou indiquez pieces dans le retrait qui en a sorti plusieurs.',
  'finding.tally.fragment-unbroken':
    '{part} : aucun événement avant {time} ne dit qu’elle a été sectionnée ou s’est rompue.',
  'remedy.tally.fragment-unbroken': 'Ajoutez l’événement cut ou fracture, ou retirez la partie de la liste.',
  'finding.tally.missing-part-unsaid':
    '{device} : sorti à {time} avec une partie manquante, et rien ne dit laquelle ni où elle se trouve.',
  'remedy.tally.missing-part-unsaid':
    'Déclarez la partie dans parts et dites ce qu’il en est advenu : retirée, perdue ou nommée dans « left ».',
  'remedy.tally.damaged':
    'Écrivez part missing s’il manque quelque chose, ou acceptez l’avertissement en disant qu’il était complet.',
  'finding.tally.left-removed': '« left » nomme {what} ; sorti pourtant à {time}.',
  'remedy.tally.left-removed': 'Retirez-le de « left », ou corrigez l’événement qui l’a fait sortir.',
  'finding.tally.left-never-in': '« left » nomme {what}, mais aucun événement ne dit son introduction.',
  'remedy.tally.left-never-in':
    'Retirez-le de « left », ajoutez l’introduction, ou indiquez carried s’il a été mis en place lors d’une intervention antérieure.',
  'finding.tally.left-count':
    '{what} : selon « left », {said} restent en place ; selon les événements, {number}.',
  'remedy.tally.left-count': 'Comptez-les sur la dernière image, puis corrigez le nombre ou les événements.',
  'remedy.tally.left-count-missing': 'Ajoutez count à cette ligne, pour que le nombre soit dit deux fois.',
  'finding.tally.left-twice': '« left » parle deux fois de {what} ; la première fois à {first}.',
  'remedy.tally.left-twice': 'Gardez l’une des deux lignes.',
  'finding.tally.purpose-missing':
    '« left » nomme {what}, qui n’est pas fait pour rester, sans dire si c’est voulu.',
  'remedy.tally.purpose-missing': 'Ajoutez purpose (temporary, intended ou unintended).',
  'remedy.tally.no-condition': 'Ajoutez until ou latest dans left, ou une tâche pour cela dans aftercare.',
  'remedy.tally.retained':
    'Dites dans complications ce qui a été fait et dans advice ce qui a été dit au patient, et acceptez cette ligne.',
  'finding.tally.retained-unsaid': '{what} : perdu à {time} et non ressorti ; « left » ne le nomme pas.',
  'remedy.tally.retained-unsaid': 'Inscrivez-le dans « left » avec purpose unintended, site et until.',
  'finding.tally.carried-unsaid':
    '{device} : en place avant l’intervention ; aucun retrait n’est noté et « left » ne le nomme pas.',
  'remedy.tally.carried-unsaid':
    'S’il reste, inscrivez {key} dans « left » avec until ou latest ; s’il est sorti, ajoutez {removal}.',
  'remedy.tally.carried-case':
    'Ajoutez dans carried l’identifiant de l’intervention antérieure, pour que son entrée puisse être close.',
} as const satisfies Partial<Record<MessageKey, string>>;
