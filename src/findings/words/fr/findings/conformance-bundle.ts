import type { MessageKey } from '../../../message.js';

/** Conformité des références, des Bundles, des textes narratifs et des dérogations. */
export const conformanceBundleFindings = {
  'finding.conformance.identifier-system': 'Identifier.system « {system} » n’est pas une adresse absolue',
  'remedy.conformance.identifier-system':
    'Écrivez l’adresse complète, ou urn:oid:… ou urn:uuid:… de l’espace de noms.',
  'finding.conformance.identifier-value':
    'L’identifiant « {value} » du système urn:ietf:rfc:3986 n’est pas un URI complet',
  'remedy.conformance.identifier-value': 'Écrivez la valeur comme URI, par exemple urn:uuid:… ou urn:oid:….',
  'finding.conformance.canonical-relative': 'L’adresse canonique « {value} » n’est ni absolue ni un fragment',
  'remedy.conformance.canonical-relative': 'Écrivez l’adresse canonique complète.',
  'finding.conformance.attachment-hash':
    'L’empreinte (hash) de la pièce jointe ne correspond pas à ses données (le SHA-1 des données est {expected})',
  'remedy.conformance.attachment-hash':
    'Calculez l’empreinte sur les données avant base64, et écrivez-la en base64.',
  'finding.conformance.attachment-size':
    'La taille de la pièce jointe est {found}, mais ses données font {expected} octets',
  'remedy.conformance.attachment-size': 'Écrivez le nombre d’octets avant base64.',
  'finding.conformance.reference-format': '« {reference} » n’est pas une référence : {problem}',
  'remedy.conformance.reference-format':
    'Écrivez Type/id, une adresse absolue, urn:uuid:…, urn:oid:… ou #id.',
  'finding.conformance.reference-type': 'La référence vise {found} ; permis : {allowed}',
  'remedy.conformance.reference-type': 'Renvoyez à une ressource d’un type permis.',
  'finding.conformance.reference-type-mismatch': 'Reference.type dit {said}, mais la référence vise {found}',
  'remedy.conformance.reference-type-mismatch': 'Corrigez type ou reference.',
  'finding.conformance.reference-profile':
    'La ressource visée n’est conforme à aucun de ces profils : {profiles} ; premier motif : {reason}',
  'remedy.conformance.reference-profile':
    'Rendez la ressource visée conforme, ou renvoyez à une autre ressource.',
  'finding.conformance.reference-contained': 'Aucune ressource contenue n’a l’id « {id} »',
  'remedy.conformance.reference-contained': 'Incluez la ressource ou corrigez la référence.',
  'finding.conformance.reference-aggregation': 'La référence est {found} ; permis : {allowed}',
  'remedy.conformance.reference-aggregation': 'Renvoyez d’une manière permise.',
  'finding.conformance.reference-urn': 'Aucune entrée du Bundle n’a le fullUrl {reference}',
  'remedy.conformance.reference-urn': 'Ajoutez l’entrée ou corrigez la référence.',
  'finding.conformance.contained-id': '{problem}',
  'remedy.conformance.contained-id': 'Donnez à chaque ressource contenue son propre id.',
  'finding.conformance.bundle-full-url': 'Le fullUrl « {fullUrl} » est inutilisable : {problem}',
  'remedy.conformance.bundle-full-url': 'Écrivez une adresse absolue ou urn:uuid:… de l’entrée.',
  'finding.conformance.bundle-full-url-missing': 'L’entrée n’a pas de fullUrl',
  'remedy.conformance.bundle-full-url-missing':
    'Seuls batch, transaction et les réponses peuvent l’omettre : donnez l’identité de la ressource.',
  'finding.conformance.bundle-id-mismatch': 'Le fullUrl se termine par {tail}, mais la ressource est {found}',
  'remedy.conformance.bundle-id-mismatch':
    'Faites que les deux dernières parties de fullUrl soient le type et l’id de la ressource.',
  'finding.conformance.bundle-unreachable':
    'L’entrée {entry} n’est pas accessible par des références depuis la Composition',
  'remedy.conformance.bundle-unreachable': 'Renvoyez-y depuis la Composition ou omettez-la.',
  'finding.conformance.bundle-missing-entry':
    'Le document ne contient pas {reference}, auquel renvoie son élément {from}',
  'remedy.conformance.bundle-missing-entry': 'Incluez la ressource dans le document.',
  'finding.conformance.bundle-request': 'La requête {method} {url} est inutilisable : {problem}',
  'remedy.conformance.bundle-request': 'Écrivez la requête comme le demande l’interface RESTful.',
  'finding.conformance.bundle-identity-twice':
    'La transaction écrit {identity} plus d’une fois (aussi dans l’entrée {other})',
  'remedy.conformance.bundle-identity-twice': 'Écrivez chaque ressource une seule fois dans une transaction.',
  'finding.conformance.bundle-create-twice':
    'La transaction crée {criteria} plus d’une fois s’il n’existe pas (aussi dans l’entrée {other}) : un serveur en crée deux',
  'remedy.conformance.bundle-create-twice': 'Créez la ressource une fois, et renvoyez à cette entrée.',
  'finding.conformance.bundle-batch-reference':
    'L’entrée renvoie à l’entrée {other} du même batch, dont l’id n’est connu qu’une fois le batch terminé',
  'remedy.conformance.bundle-batch-reference':
    'Utilisez une transaction, ou renvoyez à des ressources qui existent.',
  'finding.conformance.conditional-reference':
    'La référence conditionnelle {reference} n’est permise que dans une transaction',
  'remedy.conformance.conditional-reference': 'Renvoyez par adresse, ou envoyez une transaction.',
  'finding.conformance.narrative-xml': 'Le texte narratif n’est pas du XHTML bien formé : {problem}',
  'remedy.conformance.narrative-xml': 'Corrigez le balisage.',
  'finding.conformance.narrative-root':
    'Le texte narratif doit être un seul div dans l’espace de noms XHTML ; trouvé : {found}',
  'remedy.conformance.narrative-root': 'Écrivez <div xmlns="http://www.w3.org/1999/xhtml">…</div>.',
  'finding.conformance.narrative-element':
    'Le texte narratif ne peut pas contenir l’élément {element} (txt-1)',
  'remedy.conformance.narrative-element':
    'N’utilisez que les éléments de mise en forme de base des chapitres 7 à 11 et 15 de HTML 4.0.',
  'finding.conformance.narrative-attribute':
    'Le texte narratif ne peut pas contenir l’attribut {attribute} sur {element} (txt-1)',
  'remedy.conformance.narrative-attribute': 'Supprimez l’attribut.',
  'finding.conformance.narrative-empty': 'Le texte narratif n’a ni texte ni image (txt-2)',
  'remedy.conformance.narrative-empty': 'Écrivez du texte, ou omettez le texte narratif.',
  'finding.conformance.narrative-link': 'Adresse du lien ou de l’image « {target} » : {problem}',
  'remedy.conformance.narrative-link':
    'Pointez vers un id de ce texte narratif, une ressource contenue ou une adresse absolue sûre.',
  'finding.conformance.narrative-id': 'L’id « {id} » est utilisé deux fois dans le texte narratif',
  'remedy.conformance.narrative-id': 'Utilisez chaque id une seule fois.',
  'finding.conformance.waiver-expired': 'La dérogation à {rule} sur {where} a expiré le {expires}',
  'remedy.conformance.waiver-expired':
    'Revoyez-la : corrigez ce qu’elle excuse, ou renouvelez-la avec un motif.',
  'finding.conformance.waiver-unused': 'La dérogation à {rule} sur {where} n’a rien excusé',
  'remedy.conformance.waiver-unused': 'Supprimez-la si elle n’est plus nécessaire.',
} as const satisfies Partial<Record<MessageKey, string>>;
