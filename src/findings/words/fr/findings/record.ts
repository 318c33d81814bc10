import type { MessageKey } from '../../../message.js';

/** La lecture du dossier. */
export const recordFindings = {
  'finding.record.not-text': 'Le fichier n’est pas du texte UTF-8 : l’octet {byte} est illisible.',
  'remedy.record.not-text': 'Enregistrez le fichier en UTF-8.',
  'finding.record.too-big': 'Le fichier fait {size} octets ; un dossier peut en faire {limit}.',
  'remedy.record.too-big':
    'Envoyez un seul dossier par fichier, et laissez les images et les documents à côté.',
  'finding.record.too-deep': 'Le fichier est imbriqué sur plus de {limit} niveaux.',
  'remedy.record.too-deep':
    'Aucun dossier n’en a besoin : cherchez des crochets ou des accolades non fermés.',
  'finding.record.too-many': 'Le fichier contient plus de {limit} valeurs.',
  'remedy.record.too-many': 'Envoyez un seul dossier par fichier.',
  'finding.record.too-many-entries': 'Il y a {count} entrées ; un dossier peut en avoir {limit} au plus.',
  'remedy.record.too-many-entries':
    'Vérifiez si des lignes ont été doublées ; envoyez un seul dossier par fichier.',
  'finding.record.too-long': 'Le texte a {length} caractères ; le maximum est de {limit}.',
  'remedy.record.too-long':
    'Vérifiez si quelque chose a été collé ici par erreur ; les images et les documents vont à côté du dossier.',
  'finding.record.long-word': 'Un mot ou un nombre dépasse {limit} caractères.',
  'remedy.record.long-word':
    'Vérifiez si quelque chose a été collé ici par erreur ; séparez les mots par des espaces.',
  'finding.record.control-character':
    'Le texte contient le caractère {character}, qu’aucun écran ni aucune imprimante ne montre.',
  'remedy.record.control-character':
    'Supprimez-le ; dans une étiquette, écrivez le séparateur de groupe \\x1D entre guillemets doubles.',
  'finding.record.not-yaml': 'Ce n’est pas du YAML ni du JSON lisible : {why}',
  'remedy.record.not-yaml':
    'Corrigez la ligne indiquée ; souvent il manque juste avant un guillemet, un crochet ou un retrait.',
  'finding.record.duplicate-key': 'La clé « {key} » figure deux fois au même endroit.',
  'remedy.record.duplicate-key': 'Gardez l’une des deux, ou donnez un autre nom à la seconde.',
  'finding.record.alias':
    '« {what} » est une ancre, un alias, une fusion ou une balise YAML ; un dossier n’en contient pas.',
  'remedy.record.alias':
    'Écrivez la valeur là où elle sert ; mettez entre guillemets un texte qui commence par & * ou !.',
  'finding.record.forbidden-key': 'La clé « {key} » n’est permise nulle part.',
  'remedy.record.forbidden-key': 'Donnez-lui un autre nom.',
  'finding.record.not-a-case': 'Le fichier contient {what}, pas un dossier d’intervention.',
  'remedy.record.not-a-case':
    'Un dossier commence par « casetally: 1 » et comporte case, patient, team, indication et report.',
  'finding.record.empty-value': '« {key} » n’a pas de valeur.',
  'remedy.record.empty-value':
    'Supprimez la ligne si rien n’a été noté ; écrivez « none » si on a cherché sans rien trouver.',
  'finding.record.unknown-key': '« {key} » n’est pas un champ à cet endroit.',
  'remedy.record.unknown-key': '{suggestion}',
  'finding.record.missing': '« {key} » manque ; attendu : {expected}.',
  'remedy.record.missing': 'Ajoutez « {key} ».',
  'finding.record.wrong-type': 'Attendu : {expected} ; trouvé : {found}.',
  'remedy.record.wrong-type': 'Écrivez {expected}.',
  'finding.record.not-one-of': '« {found} » ne fait pas partie des valeurs admises : {allowed}.',
  'remedy.record.not-one-of': '{suggestion}',
  'finding.record.bad-text': '« {found} » ne convient pas ; attendu : {expected}.',
  'remedy.record.bad-text': 'Écrivez {expected}.',
  'finding.record.bad-quantity': '{why}.',
  'remedy.record.bad-quantity': 'Écrivez un nombre avec son unité, par exemple {example}.',
  'finding.record.bad-time': '{why}.',
  'remedy.record.bad-time':
    'Écrivez 09:04, 2024-03-14T09:04 ou, avec le décalage horaire, 2024-03-14T09:04+01:00.',
  'finding.record.time-skipped': '{why}.',
  'remedy.record.time-skipped':
    'Vérifiez l’horloge qui a été lue : elle n’avait sans doute pas encore été avancée.',
  'finding.record.time-twice': '{why}.',
  'remedy.record.time-twice': 'Écrivez le décalage horaire après l’heure.',
  'finding.record.no-time-zone': '{why}.',
  'remedy.record.no-time-zone':
    'Ajoutez timeZone dans case, par exemple Europe/Lisbon, ou indiquez-le dans la configuration de l’établissement.',
  'finding.record.no-date': '{why}.',
  'remedy.record.no-date': 'Ajoutez date dans case, YYYY-MM-DD.',
  'finding.record.bad-time-zone': '« {zone} » n’est pas un nom de fuseau horaire.',
  'remedy.record.bad-time-zone': 'Écrivez un nom IANA, par exemple Europe/Lisbon.',
  'finding.record.bad-date': '« {found} » n’est pas un jour du calendrier.',
  'remedy.record.bad-date': 'Écrivez YYYY-MM-DD.',
  'finding.record.time-next-day':
    '{times} : lu comme étant du lendemain, {date}, car plus de douze heures avant le début de l’intervention ({started}).',
  'remedy.record.time-next-day': 'Écrivez la date devant l’heure s’il s’agit d’un autre jour.',
  'finding.record.time-day-before':
    '{times} : lu comme étant de la veille, {date}, car plus de dix-huit heures après le début de l’intervention ({started}).',
  'remedy.record.time-day-before': 'Écrivez la date devant l’heure s’il s’agit d’un autre jour.',
  'finding.record.start-missing':
    'Les heures sans date vont de {first} à {last}, et le début de l’intervention n’est pas noté : toutes sont lues comme étant du {date}, même celles qui peuvent être de la nuit d’avant ou d’après.',
  'remedy.record.start-missing': 'Ajoutez case.started, ou écrivez la date devant les heures.',
  'finding.record.unknown-reference': 'Aucune entrée de ce type ({what}) ne porte la clé « {key} ».',
  'remedy.record.unknown-reference': '{suggestion}',
  'finding.record.duplicate-member': 'Deux entrées de {list} utilisent la clé « {key} ».',
  'remedy.record.duplicate-member': 'Donnez une autre clé à l’une d’elles.',
  'finding.record.reason-missing': 'L’intervention est « {status} » et aucun motif n’est noté.',
  'remedy.record.reason-missing': 'Ajoutez case.reason.',
  'finding.record.not-recorded': '{what} : rien n’est renseigné.',
  'remedy.record.not-recorded': 'Renseignez-le, ou écrivez « none » s’il n’y en avait pas.',
  'finding.record.checked-in-part':
    'Des parties du dossier n’ont pas pu être lues ; le reste a été vérifié sans elles.',
  'remedy.record.checked-in-part':
    'Corrigez les erreurs et vérifiez de nouveau : d’autres constats peuvent apparaître.',
  'finding.record.unsigned': 'Le compte rendu est « {status} » et l’heure de signature n’est pas notée.',
  'remedy.record.unsigned': 'Ajoutez report.signedAt, ou mettez report.status à preliminary.',
  'finding.record.change-missing': 'Le compte rendu est « {status} » et ne dit pas ce qui a changé.',
  'remedy.record.change-missing': 'Ajoutez report.change avec of, by, at et why.',
  'remedy.record.outside-case': 'Corrigez l’heure, ou case.started et case.ended.',
  'remedy.record.order-of-times': 'Corrigez l’heure qui est fausse : celle-ci, ou {other}.',
  'finding.record.event-out-of-place':
    'L’événement « {event} » porte l’heure {time} et figure dans le dossier entre {from} et {to}. Ce qui le contredit de ce fait : {count}.',
  'remedy.record.event-out-of-place':
    'Corrigez son heure en {from} ou une heure suivante jusqu’à {to} ; si elle est juste, corrigez ce qui en découle.',
  'finding.record.in-future': '{what} ({time}) : c’est dans le futur.{more}',
  'remedy.record.in-future': 'Corrigez la date ou l’heure, ou l’horloge de cet ordinateur.',
  'finding.record.source-of-nothing':
    'sources indique d’où vient {place}, mais rien ne figure à cet endroit.',
  'remedy.record.source-of-nothing': 'Retirez la ligne de sources, ou corrigez son chemin.',
} as const satisfies Partial<Record<MessageKey, string>>;
