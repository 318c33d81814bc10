import type { MessageKey } from '../../../message.js';

/** L’envoi au destinataire. */
export const deliveryFindings = {
  'finding.delivery.address-unreadable':
    'L’adresse « {address} » n’est pas une adresse http ou https d’un serveur FHIR.',
  'remedy.delivery.address-unreadable':
    'Écrivez l’adresse de base en entier, par exemple https://fhir.example.org/r4.',
  'finding.delivery.address-not-plain':
    'L’adresse chez {host} porte un nom d’utilisateur, une requête ou un fragment ; une adresse de base n’en a pas.',
  'remedy.delivery.address-not-plain':
    'Indiquez l’adresse de base seule ; les identifiants de connexion vont au destinataire dans la configuration de l’établissement, par référence.',
  'finding.delivery.address-not-secure':
    'L’adresse chez {host} est en http simple : les données du patient passeraient sur le réseau, lisibles par d’autres.',
  'remedy.delivery.address-not-secure':
    'Utilisez https. Le http simple n’est accepté que sur cette machine même.',
  'finding.delivery.not-a-submission':
    'Ce qui doit aller à {destination} n’est pas un Bundle FHIR de transaction.',
  'remedy.delivery.not-a-submission':
    'Préparez de nouveau le dossier et envoyez le submission.json qui en résulte.',
  'finding.delivery.circle':
    'Des ressources du dossier se renvoient l’une à l’autre en cercle, ce que {destination} ne peut pas accepter une par une.',
  'remedy.delivery.circle':
    'Mettez le mode du destinataire à transaction, ou demandez des transactions à ceux qui l’exploitent.',
  'finding.delivery.over-limit': 'L’envoi fait {size} ; {destination} accepte au plus {limit}.',
  'remedy.delivery.over-limit':
    'Nommez moins d’images s’il y a trop d’octets, ou relevez la limite du destinataire si le serveur en accepte davantage.',
  'finding.delivery.refused': '{destination} a refusé l’envoi ({status}) ; il n’en conserve rien.',
  'remedy.delivery.refused': 'Corrigez ce que le serveur indique ci-dessous et envoyez de nouveau.',
  'finding.delivery.too-large': '{destination} a refusé l’envoi, trop volumineux ({status}).',
  'remedy.delivery.too-large':
    'Nommez moins d’images dans le dossier, ou faites relever la limite du serveur.',
  'finding.delivery.redirected':
    '{destination} renvoie à une autre adresse ({status}) ; les redirections ne sont pas suivies, rien n’y a été envoyé.',
  'remedy.delivery.redirected':
    'Mettez comme adresse du destinataire celle où le serveur se trouve vraiment, une fois certain que c’est le vôtre.',
  'finding.delivery.reference-not-found':
    '{destination} ne connaît personne, ou rien, sous un identifiant auquel le dossier fait référence ({status}).',
  'remedy.delivery.reference-not-found':
    'Vérifiez les identifiants du patient, de la demande, du séjour et de l’équipe. Faites d’abord enregistrer là-bas ce qui manque, ou laissez le dossier apporter le patient avec `references.patient: include` dans les réglages du destinataire.',
  'finding.delivery.target-missing':
    '{destination} n’a aucune ressource {type} sous l’identifiant ou l’adresse auxquels le dossier fait référence. Rien n’a été envoyé.',
  'remedy.delivery.target-missing':
    'Vérifiez l’identifiant. Ensuite, deux possibilités : faire enregistrer là-bas la ressource {type} ; ou laisser le dossier l’apporter, avec `references.{setting}: include` dans les réglages du destinataire.',
  'finding.delivery.target-several':
    '{destination} a {count} ressources {type} sous un même identifiant : {addresses}. Rien n’a été envoyé.',
  'remedy.delivery.target-several': 'Faites-y fusionner les doublons ; Casetally ne choisit pas entre eux.',
  'finding.delivery.target-merged': '{destination} a fusionné {address} dans {other}. Rien n’a été envoyé.',
  'remedy.delivery.target-merged':
    'Cherchez de quelle ressource {type} il s’agit et utilisez son identifiant.',
  'finding.delivery.target-inactive':
    '{destination} indique que {address} n’est plus en usage. Rien n’a été envoyé.',
  'remedy.delivery.target-inactive':
    'Cherchez de quelle ressource {type} il s’agit et utilisez son identifiant.',
  'finding.delivery.match-differs':
    '{address} chez {destination} : {field} diffère, {sent} dans le dossier, {held} là-bas.',
  'remedy.delivery.match-differs':
    'Vérifiez si le numéro est le bon. Corrigez le dossier ou ce qui se trouve là-bas ; envoyez de nouveau.',
  'finding.delivery.match-near':
    '{address} chez {destination} : {field} est presque identique, {sent} dans le dossier, {held} là-bas.',
  'remedy.delivery.match-near':
    'Si c’est juste : casetally outbox retry ITEM --accept {field} --by NAME --why TEXT.',
  'finding.delivery.not-compared':
    '{destination} ne communique pas {what} de la ressource {type} : pas de comparaison avec le dossier.',
  'remedy.delivery.not-compared': 'Vérifiez chez le destinataire que le dossier est sous le bon patient.',
  'finding.delivery.case-of-another-patient':
    '{destination} a ce dossier sous un autre patient ({address}, {patient}).',
  'remedy.delivery.case-of-another-patient':
    'Un dossier reste avec son patient. Pour le passer à un autre : casetally move OLD NEW.',
  'finding.delivery.partial':
    '{destination} n’a accepté qu’une partie de l’envoi, ou ne l’a pas traité comme un tout ({status}).',
  'remedy.delivery.partial': 'Regardez ce qu’il contient, indiqué ci-dessous, avant tout nouvel envoi.',
  'finding.delivery.echoed':
    '{destination} a enregistré l’envoi comme un document au lieu de l’exécuter ({status}).',
  'remedy.delivery.echoed':
    'L’adresse n’est pas la base d’un serveur FHIR qui accepte des transactions : corrigez-la.',
  'finding.delivery.outcome-unknown': 'On ne sait pas si {destination} a accepté l’envoi ({status}).',
  'remedy.delivery.outcome-unknown':
    'Ne saisissez pas le dossier à la main. Envoyez-le de nouveau plus tard : ce qui s’y trouve déjà est retrouvé par ses identifiants.',
  'finding.delivery.several-matches':
    '{destination} a plusieurs ressources sous un même identifiant du dossier et ne peut pas choisir ({status}).',
  'remedy.delivery.several-matches':
    'Faites fusionner ou retirer les doublons chez le destinataire, puis envoyez de nouveau.',
  'finding.delivery.several-held':
    '{destination} a {count} ressources {resource} avec le même identifiant de {system} : {addresses}.',
  'remedy.delivery.several-held': 'Faites-y fusionner ou retirer les doublons, puis envoyez de nouveau.',
  'finding.delivery.gone':
    'Quelque chose de ce dossier a été retiré chez {destination} ({status}) ; ce n’est pas recréé automatiquement.',
  'remedy.delivery.gone': 'Cherchez là-bas pourquoi cela a été retiré avant un nouvel envoi.',
  'finding.delivery.throttled':
    '{destination} n’accepte plus rien pour l’instant ({status}) et demande d’attendre {wait}.',
  'remedy.delivery.throttled': 'Envoyez de nouveau après ce délai.',
  'finding.delivery.unreachable': '{destination} est injoignable : {cause}. Rien n’a été envoyé.',
  'remedy.delivery.unreachable': 'Vérifiez l’adresse et le réseau, puis envoyez de nouveau.',
  'finding.delivery.certificate':
    'Le certificat de {destination} n’est pas reconnu ou est à un autre nom. Rien n’a été envoyé.',
  'remedy.delivery.certificate':
    'Vérifiez l’adresse ; pour une autorité de certification privée, indiquez son certificat au destinataire.',
  'finding.delivery.unauthorised': '{destination} n’accepte pas les identifiants de connexion ({status}).',
  'remedy.delivery.unauthorised':
    'Vérifiez l’autorisation du destinataire dans la configuration de l’établissement et les secrets auxquels elle renvoie.',
  'finding.delivery.token-refused':
    'Le serveur d’autorisation de {destination} ne donne pas de jeton à cet expéditeur. Rien n’a été envoyé.',
  'remedy.delivery.token-refused':
    'Vérifiez l’identifiant du client, la clé ou le secret, le scope et l’horloge ; la clé publique doit y être enregistrée.',
  'finding.delivery.secret-missing':
    'Le secret {reference} du destinataire {destination} est introuvable : rien ne se trouve dans {where}.',
  'remedy.delivery.secret-missing':
    'Définissez cette variable d’environnement, ou rendez ce fichier lisible pour cet utilisateur. Un chemin relatif part du répertoire de la configuration de l’établissement.',
  'finding.delivery.header-not-allowed':
    'Le destinataire {destination} fixe l’en-tête {header}, qui ne se règle pas dans la configuration de l’établissement.',
  'remedy.delivery.header-not-allowed':
    'Supprimez-le ; l’autorisation va dans auth, par référence au secret.',
  'finding.delivery.other-version':
    '{destination} déclare parler FHIR {version} ; les envois qui lui sont destinés sont écrits en {ours}.',
  'remedy.delivery.other-version':
    'Mettez fhirVersion du destinataire à la version que parle le serveur, ou utilisez son adresse pour l’autre version.',
  'finding.delivery.transaction-not-declared': '{destination} ne déclare pas accepter de transactions.',
  'remedy.delivery.transaction-not-declared':
    'Mettez le mode du destinataire à batch ou single ; ou, si vous savez qu’il les accepte quand même, undeclaredTransaction à true.',
  'finding.delivery.batch-not-declared': '{destination} ne déclare pas accepter de lots (batch).',
  'remedy.delivery.batch-not-declared': 'Mettez le mode du destinataire à single si les lots y échouent.',
  'finding.delivery.not-in-version':
    '{destination} demande FHIR {version}, où {what} ne peut pas s’écrire. Rien n’a été envoyé.',
  'remedy.delivery.not-in-version': 'Utilisez une adresse de ce serveur pour FHIR R4 (4.0.1).',
  'finding.delivery.relations-left-out':
    '{destination} est réglé pour ne pas accepter relatesTo : le document ne nomme pas celui qui le précède. Le compte rendu le dit en toutes lettres, et le précédent est remplacé malgré tout.',
  'remedy.delivery.relations-left-out': 'Mettez relatesTo du destinataire à send si le serveur l’accepte.',
  'finding.delivery.linked-by-identifier':
    '{destination} n’accepte pas de transactions : les références {what} donnent l’identifiant au lieu d’une adresse, car elles fermeraient un cercle.',
  'remedy.delivery.linked-by-identifier':
    'Mettez le mode du destinataire à transaction si le serveur les accepte.',
  'finding.delivery.lost-in-version':
    '{destination} demande FHIR {version}, qui n’a pas de place pour {what}.',
  'remedy.delivery.lost-in-version':
    'Utilisez une adresse de ce serveur pour FHIR R4 (4.0.1) si cela y a de l’importance.',
  'finding.delivery.type-not-declared': '{destination} ne déclare pas accepter {type} {what}.',
  'remedy.delivery.type-not-declared':
    'Demandez à ceux qui l’exploitent, ou omettez ce type de ressource là où la configuration de l’établissement le permet.',
  'finding.delivery.forbidden':
    '{destination} connaît l’expéditeur mais ne l’autorise pas à écrire ({status}).',
  'remedy.delivery.forbidden':
    'Faites-y accorder le droit d’écriture pour les types de ressource que contient un dossier.',
  'finding.delivery.no-transaction':
    '{destination} n’accepte pas de transactions à cette adresse ({status}).',
  'remedy.delivery.no-transaction': 'Vérifiez l’adresse de base ; elle se termine souvent par /fhir ou /r4.',
  'finding.delivery.media-type': '{destination} n’accepte pas le type de média de l’envoi ({status}).',
  'remedy.delivery.media-type':
    'Mettez le type de média du destinataire à application/json ou à ce qu’indique sa documentation.',
  'finding.delivery.server-says': '{destination} dit de {resource} : {text}',
  'remedy.delivery.server-says':
    'Corrigez-le dans le dossier ou dans la configuration de l’établissement ; ce qu’un serveur refuse au-delà de la norme relève de ses propres règles.',
  'finding.delivery.held-differs':
    '{destination} conserve {element} autrement que dans l’envoi : envoyé {sent}, conservé {held}.',
  'remedy.delivery.held-differs':
    'Cherchez si le serveur le modifie ou l’abandonne, et si cela compte pour le dossier.',
} as const satisfies Partial<Record<MessageKey, string>>;
