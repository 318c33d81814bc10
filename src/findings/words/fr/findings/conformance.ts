import type { MessageKey } from '../../../message.js';

/** Conformité des ressources. */
export const conformanceFindings = {
  'finding.conformance.json-syntax': 'Le texte n’est pas du JSON : {problem}',
  'remedy.conformance.json-syntax': 'Corrigez le JSON à cet endroit ; rien de ce qui suit n’a été lu.',
  'finding.conformance.json-too-deep': 'Le JSON est imbriqué sur plus de {limit} niveaux',
  'remedy.conformance.json-too-deep':
    'Les ressources sont bien plus plates ; vérifiez ce qui a écrit ce fichier.',
  'finding.conformance.json-duplicate-key': 'La propriété « {name} » est écrite deux fois dans un même objet',
  'remedy.conformance.json-duplicate-key': 'Gardez l’une des deux.',
  'finding.conformance.not-a-resource': 'Attendu : un objet JSON avec un resourceType ; trouvé : {found}',
  'remedy.conformance.not-a-resource': 'Donnez une ressource FHIR R4 ou un Bundle en JSON.',
  'finding.conformance.unknown-type': 'Il n’y a pas de type de ressource R4 « {type} »',
  'remedy.conformance.unknown-type': 'Corrigez resourceType ; {hint}.',
  'finding.conformance.unknown-element': '{parent} n’a pas d’élément « {name} »',
  'remedy.conformance.unknown-element': 'Supprimez-le ou corrigez son orthographe ; {hint}.',
  'finding.conformance.json-type': 'Attendu : {expected} ; trouvé : {found}',
  'remedy.conformance.json-type': 'Écrivez la valeur dans la forme JSON de son type.',
  'finding.conformance.empty': 'Vide : {what}',
  'remedy.conformance.empty': 'Omettez l’élément s’il n’a pas de contenu.',
  'finding.conformance.null-padding': '{problem}',
  'remedy.conformance.null-padding':
    'Dans une primitive répétée, null ne figure que là où l’autre tableau porte l’élément.',
  'finding.conformance.min': '{element} est exigé au moins {min} fois ; trouvé : {found}',
  'remedy.conformance.min': 'Ajoutez {element}.',
  'finding.conformance.max': '{element} est permis au plus {max} fois ; trouvé : {found}',
  'remedy.conformance.max': 'Supprimez ce qui est en trop dans {element}.',
  'finding.conformance.choice-type': '{element} ne peut pas être du type {found} ; permis : {allowed}',
  'remedy.conformance.choice-type': 'Utilisez l’un des types permis.',
  'finding.conformance.choice-twice': '{element} est donné dans plus d’un type : {found}',
  'remedy.conformance.choice-twice': 'Gardez-en un seul.',
  'finding.conformance.primitive-format': '« {value} » n’est pas valide comme {type} : {problem}',
  'remedy.conformance.primitive-format': 'Écrivez la valeur comme le demande {type}.',
  'finding.conformance.length': 'La valeur a {found} caractères ; {max} au plus sont permis',
  'remedy.conformance.length': 'Raccourcissez la valeur.',
  'finding.conformance.range': '{value} est hors de l’intervalle permis : {limit}',
  'remedy.conformance.range': 'Corrigez la valeur.',
  'finding.conformance.fixed': 'La valeur doit être exactement {expected} ; trouvé : {found}',
  'remedy.conformance.fixed': 'Écrivez la valeur fixée.',
  'finding.conformance.pattern': 'La valeur doit contenir {expected} ; trouvé : {found}',
  'remedy.conformance.pattern': 'Écrivez au moins ce que contient le motif (pattern).',
  'finding.conformance.slice-closed':
    'Cet élément n’appartient à aucune des tranches (slices) de {element}, et le découpage est fermé : {slices}',
  'remedy.conformance.slice-closed': 'Faites correspondre l’élément à une tranche ou supprimez-le.',
  'finding.conformance.slice-order':
    'L’élément de la tranche {slice} vient après un élément de la tranche {after} ; les tranches sont ordonnées',
  'remedy.conformance.slice-order': 'Mettez les éléments dans l’ordre des tranches.',
  'finding.conformance.slice-end':
    'Un élément hors de toutes les tranches de {element} se trouve avant un élément de la tranche {slice}',
  'remedy.conformance.slice-end': 'Mettez à la fin les éléments qui ne correspondent à aucune tranche.',
  'finding.conformance.slice-not-checked':
    'Le découpage en tranches de {element} n’a pas été vérifié : {reason}',
  'remedy.conformance.slice-not-checked':
    'Vérifiez les tranches de cet élément à l’œil ou avec un autre outil.',
  'finding.conformance.profile-not-loaded':
    'Le profil {profile} n’est pas chargé ; rien n’a donc été vérifié par rapport à lui',
  'remedy.conformance.profile-not-loaded': 'Chargez le paquet qui le contient, ou corrigez l’adresse.',
  'finding.conformance.profile-type': 'Le profil {profile} est pour {expected}, pas pour {found}',
  'remedy.conformance.profile-type': 'Déclarez un profil de ce type.',
  'finding.conformance.profile-none':
    'N’est conforme à aucun des profils permis : {profiles} ; premier motif : {reason}',
  'remedy.conformance.profile-none': 'Rendez-le conforme à l’un d’eux.',
  'finding.conformance.abstract-type': '{type} est abstrait et ne peut pas servir pour une instance',
  'remedy.conformance.abstract-type': 'Utilisez un type concret.',
  'finding.conformance.extension-unknown':
    'L’extension {url} n’est pas définie dans les paquets chargés ; seule sa structure de base a été vérifiée',
  'remedy.conformance.extension-unknown': 'Chargez le paquet qui la définit, s’il existe.',
  'finding.conformance.extension-modifier-unknown':
    'L’extension modificatrice {url} n’est pas définie dans les paquets chargés',
  'remedy.conformance.extension-modifier-unknown':
    'Un modificateur doit être compris : chargez le paquet qui le définit.',
  'finding.conformance.extension-modifier': 'L’extension {url} doit être utilisée comme {expected}',
  'remedy.conformance.extension-modifier': 'Déplacez-la vers {expected}.',
  'finding.conformance.extension-context':
    'L’extension {url} n’est pas permise sur {where} ; permise sur : {allowed}',
  'remedy.conformance.extension-context': 'Utilisez-la là où sa définition le permet.',
  'finding.conformance.extension-part': 'L’extension {extension} n’a pas de partie « {url} »',
  'remedy.conformance.extension-part': 'Utilisez les parties que nomme sa définition.',
  'finding.conformance.extension-url': 'L’adresse d’extension « {url} » n’est pas absolue',
  'remedy.conformance.extension-url':
    'Écrivez l’adresse complète de l’extension ; seules les parties d’une extension complexe ont des noms courts.',
  'finding.conformance.binding-required':
    '{found} n’est pas dans le jeu de valeurs obligatoire (required) {valueSet}',
  'remedy.conformance.binding-required': 'Utilisez un code du jeu de valeurs{hint}.',
  'finding.conformance.binding-extensible': '{found} n’est pas dans le jeu de valeurs extensible {valueSet}',
  'remedy.conformance.binding-extensible':
    'Utilisez un code du jeu de valeurs si l’un d’eux a ce sens{hint}.',
  'finding.conformance.binding-preferred':
    '{found} n’est pas dans le jeu de valeurs préféré (preferred) {valueSet}',
  'remedy.conformance.binding-preferred': 'Un code du jeu de valeurs est préférable{hint}.',
  'finding.conformance.binding-max': '{found} n’est pas dans le jeu de valeurs maximal {valueSet}',
  'remedy.conformance.binding-max': 'Utilisez un code du jeu de valeurs{hint}.',
  'finding.conformance.binding-not-checked': 'Non vérifié : si {found} est dans {valueSet} ({reason})',
  'remedy.conformance.binding-not-checked':
    'Faites-le vérifier par un serveur de terminologie, si cela compte.',
  'finding.conformance.code-unknown': 'Le système de codes {system} n’a pas de code « {code} »',
  'remedy.conformance.code-unknown': 'Corrigez le code{hint}.',
  'finding.conformance.code-display':
    'Le libellé (display) « {found} » n’est pas l’un de ceux du code {code} ; c’est : {expected}',
  'remedy.conformance.code-display':
    'Utilisez le libellé du système de codes, ou mettez vos propres mots dans text.',
  'finding.conformance.code-system-value-set':
    'Coding.system contient l’adresse d’un jeu de valeurs : {system}',
  'remedy.conformance.code-system-value-set': 'Écrivez l’adresse du système de codes.',
  'finding.conformance.code-system-relative': 'Coding.system « {system} » n’est pas une adresse absolue',
  'remedy.conformance.code-system-relative': 'Écrivez l’adresse complète du système de codes.',
  'finding.conformance.udi-issuer-relative':
    'L’organisme « {issuer} » de l’identifiant du dispositif n’est pas une adresse absolue',
  'remedy.conformance.udi-issuer-relative':
    'Écrivez l’adresse de l’entité d’attribution, par exemple http://hl7.org/fhir/NamingSystem/gs1-di.',
  'finding.conformance.code-check-digit': 'Le code {code} de {system} est mal saisi : {problem}',
  'remedy.conformance.code-check-digit':
    'Cherchez de nouveau le code ; le nombre de chiffres et leur ordre comptent.',
  'finding.conformance.unit-invalid': '« {code} » n’est pas une unité UCUM : {problem}',
  'remedy.conformance.unit-invalid': 'Écrivez l’unité en UCUM, par exemple mm, [Ch], mGy, Gy.cm2.',
  'finding.conformance.invariant': '{key} : {human}',
  'remedy.conformance.invariant': 'Faites que la règle soit vraie : {expression}',
  'finding.conformance.invariant-not-checked': 'L’invariant {key} n’a pas pu être évalué : {reason}',
  'remedy.conformance.invariant-not-checked': 'Vérifiez à l’œil : {human}',
} as const satisfies Partial<Record<MessageKey, string>>;
