import type { answers as en } from '../en/answers.js';

/** Réponses pour un seul dossier, et ce qui en relie les parties. */
export const answers: Record<keyof typeof en, string> = {
  quoted: '« {text} »',
  'answer.both': '{one} et {other}',
  'answer.then': '{one} ; {other}',
  'answer.orElse': '{one}, ou {other}',
  'answer.takeOut': 'Supprimez-le.',
  'answer.didYouMean': 'Vouliez-vous dire {names} ?',
  'answer.useOneOf': 'Utilisez l’une de ces valeurs : {allowed}.',
  'answer.elsewhere': 'Sa place est ailleurs : {places}.',
  'answer.meantMissing': 'Vouliez-vous dire « {name} », qui manque ici ?',
  'answer.declare': 'Déclarez-le : aucune entrée de ce type ({what}) n’a encore de clé.',
  'answer.add.list': 'Ajoutez « {key} », une liste d’entrées avec {fields}.',
  'answer.add.group': 'Ajoutez « {key} » avec {fields}.',
  'answer.addReport': 'Ajoutez « {key} » avec {fields}, et avec signedAt sauf si status est preliminary.',
  'answer.addWith': 'Ajoutez {path} avec {field}.',
  'answer.takeLineOut': 'Supprimez la ligne.',
  'answer.valueOrNone': 'Écrivez une valeur, ou « none ».',
  'answer.valueNeeded': 'Écrivez une valeur : le dossier a besoin de ce champ.',
  'answer.leaveLineOut': 'Supprimez la ligne si rien n’a été noté.',
  'answer.quoteText':
    'À l’intérieur de {braces} ou de {brackets}, une virgule termine le texte qui précède : mettez tout le texte entre guillemets.',
  'answer.quoteTextAs':
    'À l’intérieur de {braces} ou de {brackets}, une virgule termine le texte qui précède : mettez tout le texte entre guillemets, {text}.',
  'answer.realDay': 'Écrivez un jour qui existe, YYYY-MM-DD.',
  'answer.asDate': 'Écrivez YYYY, YYYY-MM ou YYYY-MM-DD, ou avec une heure 2024-03-14T09:04.',
  'answer.asTerm': 'Écrivez un jour YYYY-MM-DD, ou une durée telle que 6 weeks.',
  'answer.notDone':
    'Supprimez ce qui n’a pas eu lieu ; si l’intervention avait commencé, mettez case.status et ajoutez les événements.',
  'answer.kindInWords':
    'Écrivez le type d’intervention en mots simples, tels que biliary drainage (drainage biliaire) ou kidney biopsy (biopsie rénale) ; le titre peut en dire plus.',
  'answer.addFamily': 'Ajoutez sa famille : {families}.',
  'answer.removal': 'un événement remove avec device {device}',
  'answer.removalPart': '{removal} et un autre avec part {part}',
  'answer.implantStays':
    'S’il reste, inscrivez {key} dans « left » avec purpose intended ; s’il est sorti, ajoutez {removal}.',
  'answer.comesLater':
    'À {time}, il est {done} ({place}) : corrigez l’une des deux heures et l’ordre des lignes.',
  'answer.comesLaterStays':
    'À {time}, il est {done} ({place}), et « left » le nomme : supprimez cette ligne, ou corrigez son heure et « left ».',
  'answer.calledUnused':
    'Nommez le dispositif dont il s’agit ; si c’était celui-ci, ajoutez son introduction et corrigez use ({use}).',
  'answer.removeBefore': 'Ajoutez avant cela {removal}, ou dites que l’autre passe à travers.',
  'answer.partsOut':
    'Ajoutez un événement remove avec device {device}, part {key} et count {count}, ou inscrivez l’élément dans « left » avec purpose temporary ou unintended, et until.',
  'answer.timeBefore':
    'Corrigez son heure pour qu’elle précède {time}, ou l’heure à laquelle l’autre est sorti.',
  'answer.takeTaskOut': 'Supprimez la tâche, ou inscrivez dans « left » le dispositif dont il s’agit.',
  'answer.takeWordsOut': 'Corrigez le texte, ou inscrivez dans « left » le dispositif dont il s’agit.',
  'answer.strengthInUnits': 'Ajoutez strength, par exemple 1000 IU/mL, ou écrivez la dose en IU.',
  'answer.markDrug': 'Mettez yes dans {place}.reaction.',
  'answer.markContrast': 'Décrivez-la dans {place}.reaction.',
  'answer.wentThrough':
    'Indiquez par quoi il est passé, corrigez l’ordre des événements, ou dites que l’un passe sur l’autre.',
  'answer.wentOver':
    'Indiquez le guide sur lequel il est passé, corrigez l’ordre des événements, ou dites que l’autre passe à travers.',
  'answer.trapped':
    'Dites dans through par quoi il est passé, si ce n’était pas cette gaine ; notez la gaine pelable, ou que les deux sont sortis ensemble ; acceptez l’avertissement si l’embase se démonte.',
  'answer.notCarried': 'Retirez-le de « left », ou ajoutez l’introduction.',
  'answer.earlierCase': 'une intervention antérieure',
  'answer.anyTime': 'n’importe quelle heure',
  'answer.lineKept': 'Corrigez cette ligne ; elle a été gardée.',
  'answer.byWhom': 'par qui',
  'answer.when': 'quand',
  'mend.tab': 'Mettez en retrait avec des espaces.',
  'mend.secondDocument': 'Envoyez un seul dossier par fichier, et supprimez la ligne ---.',
  'mend.colon': 'Mettez entre guillemets un texte qui contient « : ».',
  'mend.indent':
    'Donnez le même retrait aux champs d’un groupe ; fermez chaque {open} et chaque [ par {close} et ].',
  'mend.fieldName': 'Cherchez juste avant cet endroit un guillemet, un crochet ou un deux-points qui manque.',
  'mend.mark': 'Mettez le texte entre guillemets.',
  'mend.alias': 'Mettez le texte entre guillemets.',
  'mend.escape': 'Écrivez \\\\ pour une barre oblique inversée.',
  'mend.quote': 'Fermez les guillemets.',
  'mend.bracket': 'Fermez le crochet ou l’accolade, et mettez une virgule entre les champs.',
  'task.reviewLeft': 'Contrôler ou changer',
  'task.removeLeft': 'Retirer ou changer',
  'setting.isCase': 'le fichier contient un dossier d’intervention.',
  'setting.isCaseFix':
    'Une configuration de l’établissement commence par « casetallySite: 1 » ; un dossier s’indique sans --site.',
  'setting.secret': 'il faut dire ici où se trouve le secret.',
  'setting.secretFix': 'Écrivez env:NAME ou file:PATH, jamais le secret lui-même.',
  'setting.digest': 'il faut ici l’empreinte d’un jeton, 64 chiffres de 0 à 9 et de a à f, et non le jeton.',
  'setting.digestFix': 'Créez un jeton avec casetally token new ; la commande affiche la ligne qui va ici.',
  'sign.temperature': 'température',
  'sign.oxygen saturation': 'saturation en oxygène',
  'sign.pulse': 'pouls',
  'sign.systolic blood pressure': 'pression artérielle systolique',
  'sign.diastolic blood pressure': 'pression artérielle diastolique',
  'sign.week of pregnancy': 'semaine de grossesse',
  'sign.pH': 'pH',
  'measure.gradientTold': 'gradient',
};
