import type { MessageKey } from '../../../message.js';

/** Le compte rendu. */
export const reportFindings = {
  'finding.report.illegal-character':
    'Le texte contient {characters}, qu’aucun compte rendu ne peut porter ; U+FFFD est affiché à la place.',
  'remedy.report.illegal-character':
    'Supprimez le caractère ; il vient souvent d’un lecteur de codes ou d’un copier-coller.',
  'finding.report.turning-character':
    'Le texte contient {characters}, qui inverse le sens de lecture du texte autour ; U+FFFD est affiché à la place.',
  'remedy.report.turning-character':
    'Supprimez le caractère ; les écritures de droite à gauche se lisent bien sans lui.',
  'finding.report.hidden-character':
    'Le texte contient {characters}, que personne ne peut voir ; le compte rendu l’omet.',
  'remedy.report.hidden-character': 'Supprimez le caractère, pour qu’une recherche retrouve le texte.',
} as const satisfies Partial<Record<MessageKey, string>>;
