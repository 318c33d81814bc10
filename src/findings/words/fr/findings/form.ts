import type { MessageKey } from '../../../message.js';

/** Les réponses au formulaire du dossier. */
export const formFindings = {
  'finding.form.too-big': 'La réponse contient {size} octets ; {limit} au plus sont lus.',
  'remedy.form.too-big': 'Envoyez les réponses seules, sans pièces jointes.',
  'finding.form.too-many': 'La réponse contient {count} objets et listes ; {limit} au plus sont lus.',
  'remedy.form.too-many': 'Vérifiez si des éléments ont été répétés par erreur.',
  'finding.form.too-deep': 'La réponse est imbriquée sur plus de {limit} niveaux.',
  'remedy.form.too-deep': 'Envoyez les éléments imbriqués comme dans le formulaire.',
  'finding.form.not-json': 'La réponse ne peut pas être lue comme du JSON : {problem}.',
  'remedy.form.not-json': 'Envoyez la QuestionnaireResponse en JSON FHIR.',
  'finding.form.twice-in-json': 'Un objet de la réponse contient deux fois le membre {name}.',
  'remedy.form.twice-in-json': 'Corrigez le programme qui écrit la réponse : l’un des deux serait perdu.',
  'finding.form.not-a-response': 'Ceci n’est pas une QuestionnaireResponse : resourceType vaut {found}.',
  'remedy.form.not-a-response':
    'Envoyez une seule QuestionnaireResponse, ni un Bundle ni une autre ressource.',
  'finding.form.not-understood':
    '{element} peut changer le sens des réponses, et Casetally ne le comprend pas : {value}.',
  'remedy.form.not-understood': 'Envoyez la réponse sans {element}.',
  'finding.form.entered-in-error': 'La réponse a été saisie par erreur : aucun dossier n’en est tiré.',
  'remedy.form.entered-in-error':
    'Remplissez de nouveau le formulaire, sous le bon patient et le bon dossier.',
  'finding.form.other-questionnaire': 'La réponse est celle d’un autre formulaire : {found}.',
  'remedy.form.other-questionnaire': 'Remplissez {expected}, que casetally questionnaire affiche.',
  'finding.form.no-questionnaire': 'La réponse n’indique pas à quel formulaire elle répond.',
  'remedy.form.no-questionnaire': 'Donnez à questionnaire la valeur {expected}.',
  'finding.form.other-version':
    'La réponse a été faite avec la version {found} du formulaire ; celle-ci est la version {expected}.',
  'remedy.form.other-version': 'Récupérez de nouveau le formulaire quand Casetally est mis à jour.',
  'finding.form.not-completed': 'Le formulaire n’a pas été terminé : status vaut {status}.',
  'remedy.form.not-completed':
    'Terminez le formulaire et envoyez-le avec le status completed ; d’ici là, ses valeurs sont des propositions.',
  'finding.form.no-date': 'La réponse n’indique pas quand elle a été faite : authored vaut {found}.',
  'remedy.form.no-date':
    'Donnez à authored une date et une heure avec décalage, par exemple 2024-03-14T10:05:00+00:00.',
  'finding.form.unknown-item': 'Le formulaire n’a pas d’élément {linkId} ; absent du dossier : {value}.',
  'remedy.form.unknown-item': 'Utilisez un linkId du formulaire, ou retirez l’élément.',
  'finding.form.misplaced':
    'L’élément {linkId} n’est pas à la place que lui donne le formulaire ; absent du dossier : {value}.',
  'remedy.form.misplaced': 'Placez-le dans {group}, comme dans le formulaire.',
  'finding.form.twice':
    '{linkId} a plusieurs réponses et ne peut en avoir qu’une ; absent du dossier : {value}.',
  'remedy.form.twice': 'Gardez la bonne réponse.',
  'finding.form.wrong-type':
    'La réponse à {linkId} est donnée par {found} ; attendu : {expected}. Absent du dossier : {value}.',
  'remedy.form.wrong-type': 'Envoyez la réponse sous la forme {expected}.',
  'finding.form.not-a-choice': '{linkId} n’offre pas le choix {value} ; il est absent du dossier.',
  'remedy.form.not-a-choice': 'Choisissez l’un de ces codes, sans system : {allowed}.',
  'finding.form.part-left-out': 'Du code de {linkId}, {parts} est absent du dossier : {value}.',
  'remedy.form.part-left-out': 'Rien à faire, sauf si le code en dépend ; écrivez-le alors dans une note.',
  'finding.form.no-key':
    'Une entrée n’a pas de réponse à {linkId}, si bien que rien ne peut y renvoyer ; absente du dossier : {value}.',
  'remedy.form.no-key': 'Répondez à {linkId} par un nom court, tel que drain ou wire1.',
  'finding.form.bad-key':
    '{linkId} ne peut pas être {key} : ce nom est déjà pris, ou réservé. Absent du dossier : {value}.',
  'remedy.form.bad-key': 'Donnez à chaque entrée un nom court qui lui est propre.',
  'finding.form.contradiction':
    '{linkId} et {other} ont tous deux une réponse, et une seule peut valoir ; absent du dossier : {value}.',
  'remedy.form.contradiction': 'Retirez la mauvaise réponse.',
  'finding.form.other-subject':
    'La réponse porte sur {said} ({element}), et {linkId} a pour réponse {answered}.',
  'remedy.form.other-subject':
    'Cherchez lequel est juste avant tout envoi : le formulaire est peut-être sous un autre patient ou un autre dossier.',
  'finding.form.more': 'Il y a {count} autres constats sur la réponse.',
  'remedy.form.more': 'Corrigez d’abord ceux qui précèdent.',
  'finding.form.not-answered':
    '{value} dépasse le plus grand entier de FHIR ({limit}), et n’est donc pas dans la réponse.',
  'remedy.form.not-answered': 'Corrigez le nombre.',
} as const satisfies Partial<Record<MessageKey, string>>;
