import type { MessageKey } from '../../../message.js';

/** Étiquettes et identifiants des dispositifs. */
export const labelFindings = {
  'finding.label.not-a-label':
    'Ce n’est pas une étiquette de dispositif : le texte commence par {found} ; une étiquette commence par ( ou des chiffres (GS1), + (HIBC) ou = (ISBT 128).',
  'remedy.label.not-a-label':
    'Scannez de nouveau l’étiquette, ou saisissez-la telle qu’elle est imprimée, parenthèses comprises.',
  'finding.label.too-long': 'Le texte a {found} caractères ; une étiquette en a {limit} au plus.',
  'remedy.label.too-long': 'Indiquez une étiquette à la fois.',
  'finding.label.symbology':
    'Le préfixe de symbologie {found} n’est pas de ceux qui accompagnent les données GS1 (]C1, ]d2, ]Q3, ]e0, ]J1).',
  'remedy.label.symbology':
    'Vérifiez que le symbole a été scanné en entier, et que c’est le bon sur l’emballage.',
  'finding.label.symbology-unknown':
    'Les caractères 1 à 3, {found}, ne sont pas un préfixe de symbologie qu’envoient les lecteurs.',
  'remedy.label.symbology-unknown': 'Scannez de nouveau l’étiquette.',
  'finding.label.unknown-identifier':
    'Au caractère {at}, {found} n’est pas un identifiant d’application GS1.',
  'remedy.label.unknown-identifier':
    'Comparez les deux à quatre chiffres avec l’étiquette ; s’ils ont été scannés, scannez de nouveau.',
  'finding.label.bracket':
    'Au caractère {at} ({what}), une parenthèse d’identifiant d’application semble abîmée : {found}.',
  'remedy.label.bracket': 'Écrivez chaque identifiant d’application entre parenthèses, par exemple (10).',
  'finding.label.brackets-in-scan':
    'Les données scannées contiennent elles-mêmes des parenthèses ; seul le texte imprimé devrait en porter.',
  'remedy.label.brackets-in-scan':
    'L’étiquette a été lue telle qu’elle est imprimée ; signalez-le au fabricant ou à la personne qui a réglé le lecteur.',
  'finding.label.length': 'Au caractère {at}, {what}, nombre de caractères : {found} ; attendu : {expected}.',
  'remedy.label.length': 'Comparez avec l’étiquette ; si elle a été scannée, scannez-la de nouveau.',
  'finding.label.character': 'Au caractère {at}, {what} : {found} ; attendu : {expected}.',
  'remedy.label.character':
    'Comparez ce caractère avec l’étiquette ; si elle a été scannée, scannez-la de nouveau.',
  'finding.label.spaces': 'Au caractère {at}, {what} : les espaces à l’intérieur ont été ignorées.',
  'remedy.label.spaces': 'Rien à faire si les chiffres sont justes.',
  'finding.label.check-digit':
    'Au caractère {at}, {what} : la clé de contrôle est {found} ; les autres chiffres donnent {expected}.',
  'remedy.label.check-digit':
    'Comparez tous les chiffres avec l’étiquette ; l’un d’eux est faux, ou l’étiquette est mal imprimée.',
  'finding.label.check-character':
    'Le caractère de contrôle, au caractère {at}, est {found} ; les caractères qui précèdent donnent {expected}.',
  'remedy.label.check-character':
    'Comparez tous les caractères avec l’étiquette ; l’un d’eux est faux ou manque. Un caractère de contrôle qui est une espace se saisit _.',
  'finding.label.check-character-space':
    'Le caractère de contrôle, au caractère {at}, est {found} ; les caractères qui précèdent donnent {expected}, et {found} si une espace s’y est perdue.',
  'remedy.label.check-character-space':
    'Comparez tous les caractères avec l’étiquette ; une espace se perd là où une longue étiquette est coupée en lignes.',
  'finding.label.check-character-missing':
    'L’étiquette se termine au caractère {at} sans son caractère de contrôle ({expected}) ; rien ne confirme le reste.',
  'remedy.label.check-character-missing': 'Comparez tous les caractères avec l’étiquette, ou scannez-la.',
  'finding.label.trailing-space': 'L’étiquette a été lue sans l’espace finale (caractère {at}).',
  'remedy.label.trailing-space': 'Rien à faire si l’étiquette n’a pas d’espace à cet endroit.',
  'finding.label.asterisk':
    'Un astérisque ne figure qu’à une extrémité, au caractère {at} ; ils vont par deux autour de l’étiquette imprimée.',
  'remedy.label.asterisk': 'Comparez les deux extrémités avec l’étiquette.',
  'finding.label.link-character':
    'Le caractère de liaison, au caractère {at}, est {found} ; le symbole primaire demande {expected}.',
  'remedy.label.link-character':
    'Les deux symboles sont de dispositifs différents, ou l’un a été mal lu : scannez de nouveau les deux.',
  'finding.label.structure': 'Au caractère {at} se trouve {found} ; attendu : {expected}.',
  'remedy.label.structure':
    'Comparez cet endroit avec l’étiquette ; si elle a été scannée, scannez-la de nouveau.',
  'finding.label.unusual-character':
    'Au caractère {at}, {what} : {found} ; la norme n’y admet que A à Z et 0 à 9.',
  'remedy.label.unusual-character': 'Comparez ce caractère avec l’étiquette.',
  'finding.label.date-flag-missing':
    'Après la quantité, au caractère {at}, le format de la date n’est pas indiqué ; le reste a été lu ainsi : {what}.',
  'remedy.label.date-flag-missing': 'Comparez avec l’étiquette.',
  'finding.label.provider-code':
    'Le / au caractère {at} désigne un code d’hôpital (HIBC pour les établissements de soins), pas celui d’un fabricant de dispositifs.',
  'remedy.label.provider-code': 'Scannez l’étiquette du fabricant.',
  'finding.label.date': 'Au caractère {at}, {what} : {found} ; ce jour n’existe pas.',
  'remedy.label.date': 'Comparez avec l’étiquette. Les autres parties de l’étiquette ont été lues.',
  'finding.label.dates-order':
    'L’étiquette donne {made} comme date de fabrication (caractère {madeAt}) et {expires} comme date limite (caractère {expiresAt}), qui est antérieure.',
  'remedy.label.dates-order': 'Comparez les deux dates avec l’étiquette.',
  'finding.label.separator-lost':
    'Au caractère {at}, {what} : le séparateur qui suit s’est perdu ; une seule lecture est possible : {reading}.',
  'remedy.label.separator-lost':
    'Comparez la lecture avec l’étiquette, et réglez le lecteur pour qu’il transmette le séparateur de groupe.',
  'finding.label.ambiguous':
    'Au caractère {at}, {what} : sans séparateur, la fin peut se trouver à {count} endroits ; aucun n’a été choisi : {readings}.',
  'remedy.label.ambiguous':
    'Saisissez l’étiquette avec ses parenthèses, ou réglez le lecteur pour qu’il transmette le séparateur de groupe.',
  'finding.label.repeated': 'Deux fois sur l’étiquette, {what} : {first} et, au caractère {at}, {second}.',
  'remedy.label.repeated': 'Comparez les deux avec l’étiquette ; scannez un symbole à la fois.',
  'finding.label.needs': 'Au caractère {at}, {what} : ne peut figurer qu’à côté de {expected}.',
  'remedy.label.needs':
    'Scannez aussi le symbole qui porte l’identifiant du dispositif ; comparez les identifiants d’application avec l’étiquette.',
  'finding.label.excludes': 'Au caractère {at}, {what} : ne peut pas figurer à côté de {found}.',
  'remedy.label.excludes': 'Comparez les identifiants d’application avec l’étiquette.',
  'finding.label.no-device-identifier': 'L’étiquette ne contient pas d’identifiant du dispositif.',
  'remedy.label.no-device-identifier':
    'Scannez le symbole qui le contient (GS1 : celui avec (01) ; HIBC : celui qui commence par + et une lettre).',
  'finding.label.bare-number':
    'Les {found} chiffres ont été lus comme un numéro d’article GS1 seul, sans lot, numéro de série ni date limite.',
  'remedy.label.bare-number':
    'Scannez aussi le symbole qui porte les données de production, si l’emballage en a un.',
  'finding.label.suspect-keyboard':
    'Le texte semble être passé par {cause} ; il fallait peut-être lire {proposal} ({check}).',
  'remedy.label.suspect-keyboard':
    'Comparez la proposition avec l’étiquette et saisissez-la si elle est juste ; réglez le lecteur sur le clavier de l’ordinateur.',
  'finding.label.serial-zero':
    'Le code de division, au caractère {at}, est 000000, ce que la norme interdit.',
  'remedy.label.serial-zero': 'Comparez avec l’étiquette.',
  'finding.label.header-count': 'L’en-tête annonce {expected} structures ; il en suit {found}.',
  'remedy.label.header-count': 'Scannez de nouveau l’étiquette.',
  'finding.label.conflict': '{device}, {what} : {typed} d’après la saisie et {label} sur l’étiquette.',
  'remedy.label.conflict':
    'Corrigez ce qui a été saisi, ou le texte de l’étiquette ; d’ici là, l’étiquette fait foi.',
  'finding.label.expired': '{device} : date limite {expires}, avant le jour de l’intervention ({date}).',
  'remedy.label.expired':
    'Corrigez la date ou le dispositif ; s’il a été utilisé, dites pourquoi et signalez-le selon les règles de l’établissement.',
  'finding.label.expires-soon':
    '{device} : date limite {expires}, à moins de {days} jours de l’intervention.',
  'remedy.label.expires-soon': 'Prévenez la personne qui gère le stock.',
  'finding.label.serial-twice':
    '{device} et {other} portent le même identifiant {di} et le même numéro de série {serial}.',
  'remedy.label.serial-twice':
    'Scannez chaque dispositif une seule fois ; supprimez l’entrée saisie en double.',
  'finding.label.serial-other-case':
    '{device} porte l’identifiant {di} et le numéro de série {serial}, déjà notés dans le dossier {case}.',
  'remedy.label.serial-other-case':
    'Si c’est le même dispositif, dites qu’il vient de ce dossier ; sinon, scannez-le de nouveau.',
  'finding.label.lot-missing': '{device} est un implant et n’a pas de numéro de lot{alternative}.',
  'remedy.label.lot-missing': 'Scannez l’étiquette ou saisissez le lot.',
  'finding.label.identifier-missing':
    '{device} reste dans le corps du patient et n’a pas d’identifiant du dispositif.',
  'remedy.label.identifier-missing': 'Scannez l’étiquette ; si elle est perdue, dites-le avec un motif.',
  'finding.catalogue.unreadable': 'La ligne {line} du catalogue des dispositifs est illisible : {problem}.',
  'remedy.catalogue.unreadable': 'Corrigez cette ligne ; les lignes suivantes lisibles ont été utilisées.',
  'finding.catalogue.column-missing': 'Le catalogue des dispositifs n’a pas de colonne {column}.',
  'remedy.catalogue.column-missing':
    'Nommez les colonnes dans la première ligne : di, description, kind, maker, reference, sizes, implant, mri, dwell.',
  'finding.catalogue.value':
    'Ligne {line} du catalogue des dispositifs : {column} vaut {found} ; attendu : {expected}.',
  'remedy.catalogue.value': 'Corrigez cette ligne ; ses autres colonnes ont été utilisées.',
  'finding.catalogue.identifier':
    'La ligne {line} du catalogue des dispositifs a {found} comme identifiant du dispositif ; attendu : {expected}.',
  'remedy.catalogue.identifier': 'Corrigez cette ligne ; elle a été ignorée.',
  'finding.catalogue.repeated':
    'La ligne {line} du catalogue des dispositifs répète l’identifiant {di} de la ligne {first} avec d’autres données.',
  'remedy.catalogue.repeated': 'Gardez l’une des deux lignes ; la première a été utilisée.',
  'finding.catalogue.conflict':
    '{device}, {what} : {recorded} ({source}), et {catalogue} dans le catalogue des dispositifs.',
  'remedy.catalogue.conflict': 'Corrigez l’entrée ou le catalogue ; d’ici là, ce qui est noté fait foi.',
} as const satisfies Partial<Record<MessageKey, string>>;
