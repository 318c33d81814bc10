import type { MessageKey } from '../../../message.js';

/** La liste de codes de l’établissement, et ce qu’en dit un serveur de terminologie. */
export const codesFindings = {
  'finding.codes.not-text': 'La liste de codes n’est pas du texte UTF-8 : {problem}.',
  'remedy.codes.not-text': 'Enregistrez-la depuis le tableur en « CSV UTF-8 ».',
  'finding.codes.column-missing':
    'La liste de codes n’a pas de colonne {column} ; sa première ligne contient {found}.',
  'remedy.codes.column-missing':
    'Nommez les colonnes dans la première ligne : what, text, system, code, display.',
  'finding.codes.unreadable': 'La ligne {line} de la liste de codes est illisible : {problem}.',
  'remedy.codes.unreadable': 'Corrigez cette ligne ; les guillemets autour d’un texte doivent être fermés.',
  'finding.codes.value': 'Ligne {line} de la liste de codes : {column} vaut {found} ; attendu : {expected}.',
  'remedy.codes.value': 'Corrigez cette ligne.',
  'finding.codes.rounded':
    'Ligne {line} de la liste de codes : un tableur a transformé le code en un nombre, {found}.',
  'remedy.codes.rounded':
    'Mettez la colonne au format texte, et saisissez de nouveau le code : ses derniers chiffres sont perdus.',
  'finding.codes.check-digit':
    'Ligne {line} de la liste de codes : {code} n’est pas un code de {system} : {problem}.',
  'remedy.codes.check-digit':
    'Comparez-le avec sa source ; les tableurs changent en zéros les chiffres après le quinzième.',
  'finding.codes.twice':
    'La ligne {line} de la liste de codes donne à « {text} » le code {code} ; la ligne {first} lui donne {other}.',
  'remedy.codes.twice':
    'Gardez pour un texte un seul code d’un système de codes, ou distinguez les deux dans la colonne what.',
  'finding.codes.more': 'La liste de codes contient {count} autres fautes.',
  'remedy.codes.more': 'Corrigez d’abord celles qui précèdent.',
  'finding.codes.not-known':
    'Le serveur de terminologie ne connaît pas {code} de {system}, que l’établissement donne à « {text} ».',
  'remedy.codes.not-known': 'Corrigez le code, ou demandez quelle édition a le serveur.',
  'finding.codes.named-otherwise':
    'Le serveur de terminologie appelle {code} « {display} » ; l’établissement le donne à « {text} » comme « {found} ».',
  'remedy.codes.named-otherwise':
    'Vérifiez si les deux veulent dire la même chose, et corrigez le code ou le libellé (display).',
  'finding.codes.server-believes-all':
    'Le serveur de terminologie dit que {system} a un code {code}, ce qui est impossible : ses réponses sur {system} ne sont pas utilisées.',
  'remedy.codes.server-believes-all': 'Demandez à ceux qui l’exploitent s’il contient ce système de codes.',
  'finding.codes.server': 'Le serveur de terminologie n’a pas répondu à {operation} pour {code} : {problem}.',
  'remedy.codes.server': 'Vérifiez son adresse, et s’il propose cette opération.',
} as const satisfies Partial<Record<MessageKey, string>>;
