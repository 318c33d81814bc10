import type { MessageKey } from '../../../message.js';

/** Ce qu’un destinataire doit permettre et connaître. */
export const deliveryProfilesFindings = {
  'finding.delivery.scopes-missing':
    'Le jeton pour {destination} ne permet pas ce dont ses dossiers ont besoin : {missing} n’a pas été accordé.',
  'remedy.delivery.scopes-missing':
    'Faites-y enregistrer ces droits (scopes) pour le client, et demandez-les avec auth.scope, ou supprimez ce réglage.',
  'finding.delivery.profiles-to-push': '{destination} refuse des profils qu’il ne connaît pas : {profiles}.',
  'remedy.delivery.profiles-to-push':
    'Chargez-les avec : {command}. Ou mettez `profiles: {setting}` pour le destinataire, ce qui cesse de les déclarer.',
  'finding.delivery.profiles-to-ask-for':
    '{destination} refuse des profils qu’il ne connaît pas, et ne nous laisse pas les charger : {profiles}.',
  'remedy.delivery.profiles-to-ask-for':
    'Mettez `profiles: {setting}` pour le destinataire, ce qui cesse de les déclarer. Ou demandez à ses administrateurs de charger les paquets FHIR {packages} (`casetally packages write FILE` écrit les nôtres), puis relancez doctor.',
  'finding.delivery.profiles-refused':
    '{destination} connaît les profils que déclare un exemple, et le refuse quand même : {said}',
  'remedy.delivery.profiles-refused':
    'Mettez `profiles: {setting}` pour le destinataire, ce qui cesse de les déclarer.',
  'finding.delivery.profiles-not-told':
    '{destination} ne valide pas sans enregistrer ($validate) : on ne saura qu’à l’envoi d’un dossier s’il accepte les profils déclarés.',
  'remedy.delivery.profiles-not-told':
    'S’il refuse un dossier à cause d’eux, mettez `profiles: none` pour le destinataire.',
  'finding.delivery.receiver-profile':
    '{destination} demande davantage aux ressources {type} que n’en ont {count}, selon {profile} : {what}',
  'remedy.delivery.receiver-profile':
    'Demandez à ses administrateurs s’ils refusent une telle ressource. Ce qu’un dossier ou la configuration de l’établissement peut contenir, écrivez-le là ; un type de ressource non souhaité s’exclut avec `groups`.',
  'finding.delivery.package-missing':
    'Le paquet {package}, dont {neededBy} a besoin, manque : ce que demande {destination} n’est vérifié qu’en partie.',
  'remedy.delivery.package-missing':
    'Procurez-vous son .tgz et lancez `casetally packages add FILE` ; les paquets sont cherchés dans {cache}.',
  'finding.delivery.package-unreadable':
    'Ce que demande {destination} n’est pas vérifié, car l’un de ses paquets est illisible : {why}',
  'remedy.delivery.package-unreadable':
    'Indiquez dans `packages` du destinataire un .tgz ou un répertoire avec un package.json, ou name#version.',
  'finding.delivery.profile-missing':
    'Le profil {profile} de {destination} n’est dans aucun des paquets disponibles et n’est pas vérifié.',
  'remedy.delivery.profile-missing':
    'Indiquez dans `packages` du destinataire le paquet qui le contient, ou corrigez son adresse.',
  'finding.delivery.reserved-host':
    'Ce qui va à {destination} porte des adresses que personne ne peut posséder : {addresses}.',
  'remedy.delivery.reserved-host':
    'Écrivez les adresses de votre hôpital : `fhir.canonical` pour les profils et les systèmes de codes (ou `profiles: none` pour le destinataire), `identifiers` et `coding` dans la configuration de l’établissement, et les systèmes de numérotation dans le dossier.',
  'finding.delivery.example-refused':
    '{destination} refuse un exemple quels que soient les profils déclarés : {said}',
  'remedy.delivery.example-refused':
    'Montrez-le à ses administrateurs : des règles qui leur sont propres interdisent ce que FHIR permet.',
} as const satisfies Partial<Record<MessageKey, string>>;
