import type { MessageKey } from '../../../message.js';

/** Valeurs que des sources donnent à un dossier. */
export const intakeFindings = {
  'finding.intake.disagrees': '{place} diffère : {sides}. Rien n’a été modifié.',
  'remedy.intake.disagrees':
    'Vérifiez laquelle est juste et inscrivez-la ; ce qui a été saisi reste tant que vous ne le changez pas.',
  'finding.intake.other-patient':
    '{source} concerne un autre patient ou une autre intervention : {what} y est {theirs}, et {ours} dans {against}. Rien n’en a été repris.',
  'remedy.intake.other-patient':
    'Vérifiez à qui appartient cette source. Si le dossier est faux, corrigez-le et reprenez la source.',
  'finding.intake.patient-unconfirmed':
    'Rien de ce que {source} dit du patient ou de l’intervention ne peut être comparé au dossier : {theirs}.',
  'remedy.intake.patient-unconfirmed': 'Comparez vous-même et ajoutez au dossier ce qui manque.',
  'finding.intake.too-old':
    '{place}, d’après {source}, date du {at}, plus de {limit} avant l’intervention. La donnée est proposée et n’a pas été inscrite.',
  'remedy.intake.too-old':
    'Reprenez-la si elle est encore valable, ou mesurez de nouveau. La limite est intake.olderThan de l’établissement, une règle locale.',
  'finding.intake.placed-later':
    '{device}, de {source}, a été mis en place le {date}, après l’intervention ({day}). Rien n’en a été repris.',
  'remedy.intake.placed-later':
    'Vérifiez que c’est la bonne intervention antérieure et que case.date est juste.',
  'finding.intake.placed-here':
    '{device}, de {source}, a été mis en place lors de cette intervention même. Rien n’en a été repris.',
  'remedy.intake.placed-here': 'Apportez l’intervention précédente, ou corrigez case.id.',
  'finding.intake.renewed': '{place} a été renouvelé d’après {source} : {was} est devenu {is}.',
  'remedy.intake.renewed':
    'Si quelqu’un avait corrigé l’ancienne valeur, inscrivez-la de nouveau et retirez sa ligne de sources.',
  'finding.intake.entry-there':
    '{place} figure déjà dans le dossier. {fields}, d’après {source}, n’y a pas été ajouté.',
  'remedy.intake.entry-there':
    'Ajoutez-le à la main s’il s’agit du même ; sinon, donnez une autre clé à l’autre.',
  'finding.intake.key-twice':
    '{place} figure dans deux sets : {sources}. Une seule entrée peut avoir cette clé ; le dossier ne dit donc pas que les deux sont sur la table.',
  'remedy.intake.key-twice':
    'Donnez-lui une autre clé dans l’un des sets, ou inscrivez le second dans le dossier sous sa propre clé.',
  'finding.intake.not-a-field':
    '{source} donne une valeur pour {place}, qui n’est pas un champ de dossier pouvant recevoir une valeur.',
  'remedy.intake.not-a-field': 'Corrigez la source, ou inscrivez la valeur à la main dans le bon champ.',
  'finding.intake.not-a-value':
    'Ce que {source} donne pour {place} ne peut pas figurer dans un dossier : c’est vide, trop long ou avec des caractères invisibles.',
  'remedy.intake.not-a-value': 'Corrigez la source, ou inscrivez la valeur à la main.',
  'finding.intake.not-written':
    'Les valeurs n’ont pas pu être inscrites dans ce fichier de façon à être relues comme voulu. Il est resté tel quel.',
  'remedy.intake.not-written':
    'Inscrivez-les à la main, ou donnez au fichier une forme plus simple (sans ancres ni clés en double) et réessayez.',
  'finding.intake.kit-other-kind': '{source} est prévu pour {kinds} ; l’intervention est {kind}.',
  'remedy.intake.kit-other-kind': 'Vérifiez que c’est le bon set.',
  'finding.intake.kit-device-open':
    '{device} est arrivé sur la table avec {source}, et rien ne dit ce qu’il est devenu.',
  'remedy.intake.kit-device-open':
    'Ajoutez ses événements, ou inscrivez dans devices.{key} use: unopened, opened unused ou failed ; use: used pour ce qui n’entre jamais.',
} as const satisfies Partial<Record<MessageKey, string>>;
